//! The build tools: the wasm target, wasm-bindgen at the version in `Cargo.lock`, trunk. Installed inside the project.

use crate::run::{command, output, root, run, succeed, tools_folder};
use std::path::{Path, PathBuf};

const TARGET: &str = "wasm32-unknown-unknown";
/// The newest trunk that builds with the Rust version of `Cargo.toml`.
const TRUNK: &str = "0.21.14";

/// Sees that everything a build needs is there.
pub fn prepare() -> Result<(), String> {
    wasm_target()?;
    let lock = std::fs::read_to_string(root().join("Cargo.lock")).map_err(|error| format!("Cargo.lock: {error}"))?;
    let wasm_bindgen = locked_version(&lock, "wasm-bindgen")
        .ok_or("Cargo.lock names no wasm-bindgen; run `cargo generate-lockfile` and keep the result")?;
    install("wasm-bindgen-cli", "wasm-bindgen", wasm_bindgen, "1 to 2 minutes")?;
    install("trunk", "trunk", TRUNK, "3 to 4 minutes")?;
    // Both share what they are built from; nobody needs it afterwards.
    let build = build_folder();
    if !build.exists() {
        return Ok(());
    }
    std::fs::remove_dir_all(&build).map_err(|error| format!("{}: {error}", build.display()))
}

fn build_folder() -> PathBuf {
    tools_folder().join("build")
}

fn wasm_target() -> Result<(), String> {
    let folder = output(&mut command("rustc", &["--print", "target-libdir", "--target", TARGET]))?;
    if Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    println!("Adding the Rust target {TARGET} (about 10 seconds)");
    run("rustup", &["target", "add", TARGET])
        .map_err(|error| format!("{error}; the target {TARGET} is needed: install it the way this Rust was installed"))
}

fn install(package: &str, program: &str, version: &str, time: &str) -> Result<(), String> {
    let installed = tools_folder()
        .join("bin")
        .join(program)
        .with_extension(std::env::consts::EXE_EXTENSION);
    if installed.is_file() {
        let found = output(&mut command(&installed.to_string_lossy(), &["--version"])).unwrap_or_default();
        if found.split_whitespace().nth(1) == Some(version) {
            return Ok(());
        }
    }
    println!("Installing {package} {version} into target/tools (about {time} on two cores, once)");
    let words = [
        "install",
        package,
        "--version",
        version,
        "--locked",
        "--no-default-features",
        "--force",
    ];
    let mut install = command("cargo", &words);
    install
        .arg("--root")
        .arg(tools_folder())
        .arg("--target-dir")
        .arg(build_folder());
    // Quick to build, and quick enough to use. Only here: these would slow the app as well.
    for (name, value) in [
        ("OPT_LEVEL", "0"),
        ("LTO", "off"),
        ("CODEGEN_UNITS", "16"),
        ("DEBUG", "0"),
        ("STRIP", "debuginfo"),
    ] {
        install.env(format!("CARGO_PROFILE_RELEASE_{name}"), value);
    }
    succeed(&mut install)
}

/// The version of a package in a `Cargo.lock`.
fn locked_version<'a>(lock: &'a str, package: &str) -> Option<&'a str> {
    let (_, after) = lock.split_once(&format!("\nname = \"{package}\"\nversion = \""))?;
    after.split('"').next()
}

#[cfg(test)]
mod tests {
    use super::locked_version;

    #[test]
    fn finds_the_package_of_exactly_that_name() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"0.1.0\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.129\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen"), Some("0.2.129"));
        assert_eq!(locked_version(lock, "wasm"), None);
    }
}
