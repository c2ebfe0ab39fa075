//! Running other programs, with the tools of this project first on the path.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The project's folder. `cargo run` names the helper's own, two levels below it.
pub fn root() -> PathBuf {
    std::env::var_os("CARGO_MANIFEST_DIR")
        .and_then(|tasks| Path::new(&tasks).ancestors().nth(2).map(Path::to_path_buf))
        .unwrap_or_else(|| PathBuf::from("."))
}

/// Where the build tools are installed, inside the project.
pub fn tools_folder() -> PathBuf {
    root().join("target/tools")
}

/// A program with its words, run in the project's folder.
pub fn command(program: &str, words: &[&str]) -> Command {
    let mut command = Command::new(program);
    let own = tools_folder().join("bin");
    let path = std::env::var_os("PATH").unwrap_or_default();
    if let Ok(path) = std::env::join_paths(std::iter::once(own).chain(std::env::split_paths(&path))) {
        command.env("PATH", path);
    }
    command.args(words).current_dir(root());
    command
}

/// Runs it, its output visible.
pub fn run(program: &str, words: &[&str]) -> Result<(), String> {
    succeed(&mut command(program, words))
}

/// Runs a prepared command, its output visible.
pub fn succeed(command: &mut Command) -> Result<(), String> {
    let status = command
        .status()
        .map_err(|error| format!("{}: {error}", shown(command)))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{} ended with {status}", shown(command)))
    }
}

/// What it prints; its complaints stay visible.
pub fn output(command: &mut Command) -> Result<String, String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| format!("{}: {error}", shown(command)))?;
    if !output.status.success() {
        return Err(format!("{} ended with {}", shown(command), output.status));
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// Whether a program of that name is on the path.
pub fn on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).any(|folder| folder.join(program).is_file())
}

fn shown(command: &Command) -> String {
    let words = command.get_args().map(|word| word.to_string_lossy());
    std::iter::once(command.get_program().to_string_lossy())
        .chain(words)
        .collect::<Vec<_>>()
        .join(" ")
}
