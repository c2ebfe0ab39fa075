//! Building the app, and not building it when nothing has changed.

use crate::run::{root, run};
use crate::{finish, sha256, tools};
use std::fs;
use std::path::Path;

/// What the built page depends on.
const SOURCES: [&str; 7] = [
    "src",
    "www",
    "Cargo.toml",
    "Cargo.lock",
    "Trunk.toml",
    ".cargo",
    ".ci/tasks/src",
];

/// Builds the release page into `dist/`, unless the one there was made from these very sources.
pub fn build() -> Result<(), String> {
    tools::prepare()?;
    let stamp_file = root().join("target/dist.stamp");
    let sources = digest_of_sources()?;
    // The page's own build id stands in the stamp, so that another build into `dist/` is not taken for this one.
    let stamp = || finish::build_id(&root().join("dist")).map(|id| format!("{sources} {id}"));
    if let (Ok(kept), Some(now)) = (fs::read_to_string(&stamp_file), stamp())
        && kept == now
    {
        println!("The app is built and nothing has changed");
        return Ok(());
    }
    println!("Building the app (1 to 2 minutes at first, then about 20 seconds)");
    run("cargo", &["fetch", "--locked"])?;
    run("trunk", &["build", "--release"])?;
    let stamp = stamp().ok_or("trunk has built a page without a build id: is its hook in Trunk.toml?")?;
    fs::write(&stamp_file, stamp).map_err(|error| format!("{}: {error}", stamp_file.display()))
}

/// The page with the panic button, for the test of the crash overlay. A debug build: it shares the tests' dependencies.
pub fn build_with_panic_button() -> Result<(), String> {
    run(
        "trunk",
        &["build", "--features", "web,panic-button", "--dist", "target/dist-panic"],
    )
}

fn digest_of_sources() -> Result<String, String> {
    let mut all = Vec::new();
    for source in SOURCES {
        for file in finish::files_below(&root().join(source))? {
            append(&mut all, &file.to_string_lossy(), &file)?;
        }
    }
    Ok(sha256::hex(&sha256::digest(&all)))
}

/// Adds a file under a name: name, length and contents.
pub fn append(all: &mut Vec<u8>, name: &str, file: &Path) -> Result<(), String> {
    let contents = fs::read(file).map_err(|error| format!("{}: {error}", file.display()))?;
    all.extend(name.as_bytes());
    all.extend(contents.len().to_le_bytes());
    all.extend(contents);
    Ok(())
}
