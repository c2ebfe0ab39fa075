//! The project's commands: `serve`, `verify`, `finish` and `bench-all`, called through the aliases in `.cargo/config.toml`.

mod app;
mod bench;
mod finish;
mod run;
mod server;
mod sha256;
mod tools;
mod verify;
mod wasm;

use std::process::ExitCode;

const USAGE: &str = "\
cargo serve [--port N] [--no-open]   build the app and serve it on this machine
cargo verify [--native-only]         every check: format, lints, tests, browser tests
cargo bench-all                      benchmarks, native and in Chromium, in one table
cargo finish                         finish the page trunk has just built (its hook)";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["serve", options @ ..] => serve(options),
        ["verify"] => verify::verify(false),
        ["verify", "--native-only"] => verify::verify(true),
        ["finish"] => finish::finish_staged(),
        ["bench-all"] => bench::bench_all(),
        _ => Err(format!("expected one of\n{USAGE}\nread: {}", words.join(" "))),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("\n{message}");
            ExitCode::FAILURE
        }
    }
}

fn serve(options: &[&str]) -> Result<(), String> {
    let (mut port, mut open) = (None, true);
    let mut rest = options.iter();
    while let Some(option) = rest.next() {
        match *option {
            "--no-open" => open = false,
            "--port" => {
                let read = rest.next().unwrap_or(&"nothing");
                port = Some(
                    read.parse()
                        .map_err(|_| format!("--port takes a number up to 65535; read: {read}"))?,
                );
            }
            other => return Err(format!("serve takes --port N and --no-open; read: {other}")),
        }
    }
    let listener = server::listen(port)?;
    app::build()?;
    server::serve(&listener, &run::root().join("dist"), open)
}
