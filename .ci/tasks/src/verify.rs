//! `cargo verify`: every check, each with its output visible, and a table at the end.

use crate::run::{command, on_path, output, run, succeed};
use crate::{app, tools};
use std::path::Path;
use std::time::Instant;

/// Chromium, its driver, a font for screenshots, a reader for printed pages, and Node: Debian's package, and a program
/// or file that shows it is there.
const DEBIAN: [(&str, &str); 6] = [
    ("chromium", "chromium"),
    ("chromium-driver", "chromedriver"),
    ("fonts-dejavu-core", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"),
    ("poppler-utils", "pdftoppm"),
    ("nodejs", "node"),
    ("npm", "npm"),
];
const WASM: [&str; 4] = ["--target", "wasm32-unknown-unknown", "--features", "web"];
/// What the pure core must not depend on.
const BROWSER_PACKAGES: [&str; 3] = ["yew", "web-sys", "wasm-bindgen"];

enum Outcome {
    Passed,
    Failed(String),
    NotRun(String),
}

#[derive(Default)]
struct Report {
    steps: Vec<(&'static str, Outcome, f64)>,
}

impl Report {
    /// Runs a step and keeps how it ended. True if it passed.
    fn step(&mut self, name: &'static str, work: impl FnOnce() -> Result<(), String>) -> bool {
        println!("\n== {name}");
        let start = Instant::now();
        let outcome = match work() {
            Ok(()) => Outcome::Passed,
            Err(reason) => {
                eprintln!("{reason}");
                Outcome::Failed(reason)
            }
        };
        let passed = matches!(outcome, Outcome::Passed);
        self.steps.push((name, outcome, start.elapsed().as_secs_f64()));
        passed
    }

    /// The same, unless something it needs is missing.
    fn step_given(
        &mut self,
        missing: Option<&str>,
        name: &'static str,
        work: impl FnOnce() -> Result<(), String>,
    ) -> bool {
        let Some(reason) = missing else {
            return self.step(name, work);
        };
        println!("\n== {name}\nNOT RUN: {reason}");
        self.steps.push((name, Outcome::NotRun(reason.to_owned()), 0.0));
        false
    }

    fn conclude(self) -> Result<(), String> {
        println!("\n{:<52} {:>8}  result", "step", "seconds");
        let (mut passed, mut failed, mut not_run) = (0, 0, 0);
        for (name, outcome, seconds) in &self.steps {
            let (count, result) = match outcome {
                Outcome::Passed => (&mut passed, "passed".to_owned()),
                Outcome::Failed(reason) => (&mut failed, format!("FAILED: {reason}")),
                Outcome::NotRun(reason) => (&mut not_run, format!("NOT RUN: {reason}")),
            };
            *count += 1;
            println!("{name:<52} {seconds:>8.1}  {result}");
        }
        let total: f64 = self.steps.iter().map(|(_, _, seconds)| seconds).sum();
        println!("{:<52} {total:>8.1}", "total");
        println!("\n{passed} passed, {failed} failed, {not_run} not run");
        if failed + not_run == 0 {
            Ok(())
        } else {
            Err("cargo verify did not pass".into())
        }
    }
}

/// Every check; with `native_only` those that need neither the wasm target nor a browser.
pub fn verify(native_only: bool) -> Result<(), String> {
    let mut report = Report::default();
    native(&mut report);
    if !native_only {
        browser(&mut report);
    }
    report.conclude()
}

fn native(report: &mut Report) {
    report.step("format", || run("cargo", &["fmt", "--check"]));
    report.step("format of the helper", || {
        run("cargo", &["fmt", "--check", "--manifest-path", ".ci/tasks/Cargo.toml"])
    });
    report.step("lints", || clippy(&[]));
    report.step("lints, with the browser's part", || {
        clippy(&["--features", "web,panic-button"])
    });
    report.step("lints of the helper", || clippy(&HELPER));
    report.step("tests", || run("cargo", &["test", "--locked", "--workspace"]));
    report.step("tests of what the page is made of", || {
        run("cargo", &["test", "--locked", "--features", "web", "--lib", "ui::"])
    });
    report.step("tests of the helper", || {
        run("cargo", &[&["test", "--locked"][..], &HELPER].concat())
    });
    report.step("the core depends on nothing of the browser", core_is_pure);
}

const HELPER: [&str; 4] = [
    "--manifest-path",
    ".ci/tasks/Cargo.toml",
    "--target-dir",
    "target/tasks",
];

fn browser(report: &mut Report) {
    report.step("programs that are needed", install_on_debian);
    let tools = report.step("build tools", tools::prepare);
    let without_tools = (!tools).then_some("the build tools are missing");
    let missing = missing_programs();
    let without_programs = without_tools.or(missing.as_deref());

    report.step_given(without_tools, "lints for wasm", || clippy(&WASM));
    report.step_given(without_programs, "tests in Chromium", || {
        let files = browser_tests()?;
        let named: Vec<&str> = files.iter().flat_map(|file| ["--test", file.as_str()]).collect();
        let words = [&["test", "--locked"][..], &WASM, &named].concat();
        succeed(command("cargo", &words).env("WASM_BINDGEN_TEST_TIMEOUT", "120"))
    });
    let built = report.step_given(without_tools, "release build", app::build);
    let unbuilt = without_programs.or((!built).then_some("the release build failed"));
    report.step_given(unbuilt, "build with the panic button", app::build_with_panic_button);
    report.step_given(unbuilt, "packages of the end-to-end tests", || {
        run(NPM, &["ci", "--prefix", "tests/browser", "--no-audit", "--no-fund"])
    });
    report.step_given(unbuilt, "end-to-end tests", || run("node", &["tests/browser/run.mjs"]));
}

const NPM: &str = if cfg!(windows) { "npm.cmd" } else { "npm" };

/// The files of tests that say something in a browser: linking and reading each of the others takes most of a minute for nothing.
fn browser_tests() -> Result<Vec<String>, String> {
    let folder = crate::run::root().join("tests");
    let mut names = Vec::new();
    for file in crate::finish::files_below(&folder)? {
        let text = match file.extension() {
            Some(kind) if kind == "rs" && file.parent() == Some(&folder) => std::fs::read_to_string(&file),
            _ => continue,
        };
        let text = text.map_err(|error| format!("{}: {error}", file.display()))?;
        if text.contains("wasm_bindgen_test") {
            names.extend(file.file_stem().map(|name| name.to_string_lossy().into_owned()));
        }
    }
    if names.is_empty() {
        return Err("no file of tests names wasm_bindgen_test".into());
    }
    Ok(names)
}

fn clippy(words: &[&str]) -> Result<(), String> {
    run(
        "cargo",
        &[
            &["clippy", "--locked", "--all-targets"][..],
            words,
            &["--", "-D", "warnings"],
        ]
        .concat(),
    )
}

fn core_is_pure() -> Result<(), String> {
    let words = [
        "tree",
        "--locked",
        "--no-default-features",
        "--edges",
        "normal",
        "--prefix",
        "none",
    ];
    let tree = output(&mut command("cargo", &words))?;
    let found: Vec<&str> = tree
        .lines()
        .filter(|line| {
            line.split(' ')
                .next()
                .is_some_and(|package| BROWSER_PACKAGES.contains(&package))
        })
        .collect();
    if found.is_empty() {
        Ok(())
    } else {
        Err(format!("the core depends on {}", found.join(", ")))
    }
}

/// Debian's packages whose sign is nowhere to be found.
fn missing() -> Vec<(&'static str, &'static str)> {
    // A variable of the program's name, such as CHROMIUM, may say where it is instead.
    let there =
        |sign: &str| Path::new(sign).is_file() || on_path(sign) || std::env::var_os(sign.to_uppercase()).is_some();
    DEBIAN.into_iter().filter(|(_, sign)| !there(sign)).collect()
}

/// As root on Debian, installs what is missing; elsewhere the steps that need it are not run, and say so.
fn install_on_debian() -> Result<(), String> {
    let packages: Vec<&str> = missing().iter().map(|(package, _)| *package).collect();
    if packages.is_empty() || !root_on_debian() {
        return Ok(());
    }
    println!("Installing {} (about a minute)", packages.join(", "));
    run("apt-get", &["update", "-q"])?;
    run(
        "apt-get",
        &[&["install", "-y", "-q", "--no-install-recommends"][..], &packages].concat(),
    )
}

fn root_on_debian() -> bool {
    Path::new("/etc/debian_version").exists() && output(&mut command("id", &["-u"])).is_ok_and(|id| id.trim() == "0")
}

/// Why the browser's steps cannot run. Fonts are a matter of the look of screenshots only.
fn missing_programs() -> Option<String> {
    let programs = missing()
        .into_iter()
        .map(|(_, sign)| sign)
        .filter(|sign| !sign.contains('/'));
    let programs: Vec<&str> = programs.collect();
    (!programs.is_empty()).then(|| {
        format!(
            "not installed: {} (as root on Debian this command does it)",
            programs.join(", ")
        )
    })
}
