//! Serving the built page on this machine, as any static host would.

use crate::run::command;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::Stdio;

/// Takes the wanted port, or the first free one from 8080.
pub fn listen(port: Option<u16>) -> Result<TcpListener, String> {
    let bind = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    match port {
        Some(port) => bind(port).map_err(|error| format!("port {port}: {error}; choose another with --port N")),
        None => (8080..8100)
            .find_map(|port| bind(port).ok())
            .ok_or_else(|| "ports 8080 to 8099 are all taken; choose one with --port N".into()),
    }
}

/// Serves the folder until the program is stopped.
pub fn serve(listener: &TcpListener, folder: &Path, open: bool) -> Result<(), String> {
    let address = listener
        .local_addr()
        .map_err(|error| format!("the server's address: {error}"))?;
    let page = format!("http://localhost:{}/", address.port());
    println!("Setday is at {page} (stop with Ctrl+C)");
    if open && !opened(&page) {
        println!("No browser could be opened: open that address yourself");
    }
    for stream in listener.incoming() {
        let folder = folder.to_owned();
        std::thread::spawn(move || {
            // A visitor who has gone away is no concern of the server.
            let _ = stream.and_then(|mut stream| answer(&mut stream, &folder));
        });
    }
    Ok(())
}

fn opened(page: &str) -> bool {
    let openers: &[(&str, &[&str])] = match std::env::consts::OS {
        "windows" => &[("cmd", &["/C", "start", "", page])],
        "macos" => &[("open", &[page])],
        _ => &[("xdg-open", &[page])],
    };
    openers.iter().any(|(program, words)| {
        command(program, words)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .is_ok()
    })
}

fn answer(stream: &mut TcpStream, folder: &Path) -> std::io::Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let request = lines.next().transpose()?.unwrap_or_default();
    // The head is read to its end, so that closing does not cut the answer off.
    while lines.next().transpose()?.is_some_and(|line| !line.is_empty()) {}

    let mut words = request.split(' ');
    let (method, target) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    if method != "GET" && method != "HEAD" {
        return respond(
            stream,
            "405 Method Not Allowed",
            "text/plain",
            b"This server answers GET and HEAD\n",
            true,
        );
    }
    match file_for(folder, target).and_then(|file| Some((media_type(&file), fs::read(&file).ok()?))) {
        Some((kind, contents)) => respond(stream, "200 OK", kind, &contents, method == "GET"),
        None => respond(
            stream,
            "404 Not Found",
            "text/plain",
            b"No such file\n",
            method == "GET",
        ),
    }
}

fn respond(stream: &mut TcpStream, status: &str, kind: &str, contents: &[u8], body: bool) -> std::io::Result<()> {
    let length = contents.len();
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {length}\r\nCache-Control: no-cache\r\n\
         X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n"
    )?;
    if body { stream.write_all(contents) } else { Ok(()) }
}

/// The file a request's target names, never one outside the folder. A folder's page is its `index.html`.
fn file_for(folder: &Path, target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?.strip_prefix('/')?;
    let plain = |name: &str| name != ".." && !name.contains(['\\', ':', '%', '\0']);
    // A second slash would make the rest an absolute path.
    if path.starts_with('/') || !path.split('/').all(plain) {
        return None;
    }
    let file = folder.join(path);
    Some(if file.is_dir() { file.join("index.html") } else { file })
}

fn media_type(file: &Path) -> &'static str {
    match file.extension().and_then(|kind| kind.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "csv" => "text/csv; charset=utf-8",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::{file_for, media_type};
    use std::path::{Path, PathBuf};

    #[test]
    fn a_target_names_a_file_inside_the_folder_only() {
        let folder = Path::new("no-such-folder");
        assert_eq!(
            file_for(folder, "/icons/a.svg?v=1"),
            Some(PathBuf::from("no-such-folder/icons/a.svg"))
        );
        for outside in [
            "/../Cargo.toml",
            "/icons/../../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "/C:/x",
            "/..\\x",
            "//etc/hostname",
            "Cargo.toml",
        ] {
            assert_eq!(file_for(folder, outside), None, "{outside}");
        }
    }

    #[test]
    fn wasm_has_the_type_that_browsers_compile_while_loading() {
        assert_eq!(media_type(Path::new("a_bg.wasm")), "application/wasm");
    }
}
