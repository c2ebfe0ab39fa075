//! Finishing the page that trunk has built: names dropped, build id, content-security policy, service worker.

use crate::{app, run, sha256, wasm};
use std::fs;
use std::path::{Path, PathBuf};

/// What `index.html` says until a release build puts its id there.
const UNBUILT: &str = r#"<meta name="build" content="development">"#;

/// Trunk's hook: finishes the folder trunk is about to show.
pub fn finish_staged() -> Result<(), String> {
    let variable =
        |name: &str| std::env::var(name).map_err(|_| format!("{name} is not set: trunk calls this as its hook"));
    finish(
        Path::new(&variable("TRUNK_STAGING_DIR")?),
        variable("TRUNK_PROFILE")? == "release",
    )
}

fn finish(dist: &Path, release: bool) -> Result<(), String> {
    let index = dist.join("index.html");
    let mut page = read(&index)?;
    if release {
        for file in files_below(dist)?
            .iter()
            .filter(|file| file.extension().is_some_and(|kind| kind == "wasm"))
        {
            let module = fs::read(file).map_err(|error| format!("{}: {error}", file.display()))?;
            let module = wasm::without_names(&module).map_err(|error| format!("{}: {error}", file.display()))?;
            write(file, &module)?;
        }
        let files = relative(dist, &files_below(dist)?);
        let id = id_of(dist, &files)?;
        if !page.contains(UNBUILT) {
            return Err(format!("www/index.html has to contain {UNBUILT} for the build id"));
        }
        page = page.replace(UNBUILT, &UNBUILT.replace("development", &id));
        let worker = service_worker(&read(&run::root().join("www/sw.js"))?, &id, &files)?;
        write(&dist.join("sw.js"), worker.as_bytes())?;
        let search = dist.join("search.js");
        write(&search, read(&search)?.replace("/*BUILD*/", &id).as_bytes())?;
    }
    write(&index, with_policy(&page)?.as_bytes())
}

/// The id of a release build in a folder; none if there is no such build.
pub fn build_id(dist: &Path) -> Option<String> {
    let page = fs::read_to_string(dist.join("index.html")).ok()?;
    let (before, after) = UNBUILT.split_once("development")?;
    let id = page.split_once(before)?.1.split_once(after)?.0;
    (id != "development").then(|| id.to_owned())
}

/// Every file below a folder (or the file itself), in order of its path.
pub fn files_below(path: &Path) -> Result<Vec<PathBuf>, String> {
    if path.is_file() {
        return Ok(vec![path.to_owned()]);
    }
    let entries = fs::read_dir(path).map_err(|error| format!("{}: {error}", path.display()))?;
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()
        .map_err(|error| format!("{}: {error}", path.display()))?;
    paths.sort();
    Ok(paths
        .iter()
        .map(|path| files_below(path))
        .collect::<Result<Vec<_>, _>>()?
        .concat())
}

/// Paths as the page writes them: from its own folder, with forward slashes.
fn relative(dist: &Path, files: &[PathBuf]) -> Vec<String> {
    let below = |file: &PathBuf| {
        let path = file.strip_prefix(dist).unwrap_or(file);
        let names: Vec<_> = path.iter().map(|name| name.to_string_lossy()).collect();
        format!("./{}", names.join("/"))
    };
    files.iter().map(below).collect()
}

/// Twelve digits of the digest of all names and contents.
fn id_of(dist: &Path, files: &[String]) -> Result<String, String> {
    let mut all = Vec::new();
    for file in files {
        app::append(&mut all, file, &dist.join(file))?;
    }
    Ok(sha256::hex(&sha256::digest(&all))[..12].to_owned())
}

fn service_worker(template: &str, id: &str, files: &[String]) -> Result<String, String> {
    const BUILD: &str = "/*BUILD*/";
    const FILES: &str = "/*FILES*/[]";
    if !template.contains(BUILD) || !template.contains(FILES) {
        return Err(format!("www/sw.js has to contain {BUILD} and {FILES}"));
    }
    let list: Vec<String> = files.iter().map(|file| format!("  {file:?},\n")).collect();
    Ok(template
        .replace(BUILD, id)
        .replace(FILES, &format!("[\n{}]", list.concat())))
}

/// The page with a policy that allows its own files and its own inline scripts, nothing else.
fn with_policy(page: &str) -> Result<String, String> {
    let hashes: Vec<String> = inline_scripts(page)
        .iter()
        .map(|script| format!(" 'sha256-{}'", sha256::base64(&sha256::digest(script.as_bytes()))))
        .collect();
    let policy = format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'{}; style-src 'self'; img-src 'self' data: blob:; \
         connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'",
        hashes.concat()
    );
    // First in the head: a policy holds only for what comes after it.
    let (before, after) = page.split_once("<head>").ok_or("the built page has no <head>")?;
    Ok(format!(
        "{before}<head>\n<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">{after}"
    ))
}

/// The text of each script element without `src`, as the browser hashes it.
fn inline_scripts(page: &str) -> Vec<&str> {
    page.split("<script")
        .skip(1)
        .filter_map(|element| element.split_once('>'))
        .filter(|(attributes, _)| !attributes.contains("src="))
        .filter_map(|(_, rest)| rest.split_once("</script>"))
        .map(|(script, _)| script)
        .collect()
}

fn read(file: &Path) -> Result<String, String> {
    fs::read_to_string(file).map_err(|error| format!("{}: {error}", file.display()))
}

fn write(file: &Path, contents: &[u8]) -> Result<(), String> {
    fs::write(file, contents).map_err(|error| format!("{}: {error}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::{inline_scripts, service_worker, with_policy};

    #[test]
    fn only_inline_scripts_are_hashed() {
        let page = "<head><script src=\"./a.js\"></script><script type=\"module\">\nrun();</script></head>";
        assert_eq!(inline_scripts(page), ["\nrun();"]);
    }

    /// The hash: W3C Content Security Policy Level 3, 8.3 (example of `alert('Hello, world.');`).
    #[test]
    fn the_policy_comes_first_and_allows_the_inline_script() {
        let page =
            with_policy("<html><head><script>alert('Hello, world.');</script></head></html>").expect("has a head");
        assert!(page.starts_with("<html><head>\n<meta http-equiv=\"Content-Security-Policy\""));
        assert!(
            page.contains("'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"),
            "{page}"
        );
        assert!(with_policy("<html></html>").is_err());
    }

    #[test]
    fn the_service_worker_lists_the_files() {
        let worker = service_worker("const C = \"/*BUILD*/\", F = /*FILES*/[];", "12ab", &["./a.js".into()]);
        assert_eq!(worker, Ok("const C = \"12ab\", F = [\n  \"./a.js\",\n];".into()));
        assert!(service_worker("const F = [];", "12ab", &[]).is_err());
    }
}
