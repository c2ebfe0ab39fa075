//! `cargo bench-all`: the same cases natively and in headless Chromium, side by side.

use crate::run::{command, output, root, run};
use crate::tools;
use std::collections::BTreeMap;

/// Runs both and prints one table.
pub fn bench_all() -> Result<(), String> {
    tools::prepare()?;
    run("cargo", &["fetch", "--locked"])?;
    let native = output(&mut command("cargo", &["bench", "--locked", "--bench", "native"]))?;
    print!("{native}");
    let words = [
        "bench",
        "--locked",
        "--bench",
        "chromium",
        "--target",
        "wasm32-unknown-unknown",
    ];
    // Its own file for the results before, so that no other engine is what Chromium is compared with.
    let before = root().join("target/bench-chromium.json");
    let chromium = output(
        command("cargo", &words)
            .env("WASM_BINDGEN_BENCH_RESULT", before)
            .env("WASM_BINDGEN_TEST_TIMEOUT", "600"),
    )?;
    print!("{chromium}");
    print!("\n{}", table(&times(&native), &times(&chromium)));
    Ok(())
}

/// The middle estimate of each case: `name … time:   [low middle high]`, the name on the same line or the one before.
fn times(printed: &str) -> BTreeMap<String, String> {
    let mut times = BTreeMap::new();
    let mut line_before = "";
    let plain = without_colours(printed);
    for line in plain.lines() {
        if let Some((name, rest)) = line.split_once("time:") {
            let name = if name.trim().is_empty() { line_before } else { name };
            let words: Vec<&str> = rest.trim().trim_matches(['[', ']']).split_whitespace().collect();
            if let [_, _, middle, unit, ..] = words[..] {
                times.insert(name.trim().to_owned(), format!("{middle} {unit}"));
            }
        }
        line_before = line;
    }
    times
}

/// The text without terminal escapes `ESC [ … m`.
fn without_colours(printed: &str) -> String {
    let mut parts = printed.split("\u{1b}[");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |text, part| {
        text + part.split_once('m').map_or(part, |(_, after)| after)
    })
}

fn table(native: &BTreeMap<String, String>, chromium: &BTreeMap<String, String>) -> String {
    let mut lines = format!("{:<40} {:>14} {:>14}\n", "case", "native", "Chromium");
    let names: std::collections::BTreeSet<_> = native.keys().chain(chromium.keys()).collect();
    for name in names {
        let of = |times: &BTreeMap<String, String>| times.get(name).cloned().unwrap_or_else(|| "not run".into());
        lines += &format!("{name:<40} {:>14} {:>14}\n", of(native), of(chromium));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::times;

    #[test]
    fn reads_a_name_on_the_line_or_above_it_in_colour_or_not() {
        let printed = "\u{1b}[32mshort name\u{1b}[0m    time:   [\u{1b}[2m1.1 ns\u{1b}[0m \u{1b}[1m1.2 ns\u{1b}[0m 1.3 ns]\n\
                       a name that does not fit on the line with its time\n\
                       \u{20}                       time:   [4.1 µs 4.2 µs 4.3 µs]\n";
        let times = times(printed);
        assert_eq!(times["short name"], "1.2 ns");
        assert_eq!(times["a name that does not fit on the line with its time"], "4.2 µs");
    }
}
