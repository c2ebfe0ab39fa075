//! `setday-check PLAN`: reads a plan file and prints its assessment as JSON.
//!
//! Exit status: 0 every lift within the limits entered (or held), 1 a lift outside, 2 something cannot be checked, 3 the file cannot be read.
//! `setday-check --rewrite PLAN` prints the file as this version writes it instead.
#![allow(clippy::print_stdout, reason = "printing is what this program is for")]

use setday::check::Outcome;
use setday::evaluate::evaluate;
use setday::plan::format;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (rewrite, path) = match arguments.as_slice() {
        [path] if path != "--rewrite" => (false, path),
        [flag, path] if flag == "--rewrite" => (true, path),
        _ => return refuse("usage: setday-check [--rewrite] PLAN.json"),
    };
    let text = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) => return refuse(&format!("{path}: {error}")),
    };
    let opened = match format::open(&text) {
        Ok(opened) => opened,
        Err(error) => return refuse(&format!("{path}: {error}")),
    };
    for note in &opened.notes {
        eprintln!("{path}: {note}");
    }
    if rewrite {
        print!("{}", format::save(&opened.plan));
        return ExitCode::SUCCESS;
    }
    let assessment = evaluate(&opened.plan);
    match serde_json::to_string_pretty(&assessment) {
        Ok(json) => println!("{json}"),
        Err(error) => return refuse(&format!("the assessment could not be written: {error}")),
    }
    ExitCode::from(match assessment.headline.outcome {
        Outcome::Within | Outcome::Held { .. } => 0,
        Outcome::Outside => 1,
        Outcome::NotChecked { .. } => 2,
    })
}

fn refuse(message: &str) -> ExitCode {
    eprintln!("{message}");
    ExitCode::from(3)
}
