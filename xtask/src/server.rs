//! A static file server on 127.0.0.1, for `serve` and for the end-to-end tests.
use std::fs;
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use anyhow::{Result, anyhow};
use tiny_http::{Header, Method, Request, Response};

/// A running server; it stops when stopped or dropped.
///
/// ```no_run
/// let server = xtask::server::Server::start("dist".as_ref())?;
/// println!("{}", server.url());
/// server.stop();
/// # Ok::<(), anyhow::Error>(())
/// ```
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    stopping: Arc<AtomicBool>,
    threads: Vec<JoinHandle<()>>,
}

impl Server {
    /// Serves a folder on a free port.
    ///
    /// # Errors
    /// When no port can be had.
    pub fn start(dir: &Path) -> Result<Self> {
        Self::start_at(dir, 0)
    }

    /// Serves a folder on this port, for instance again after a stop; 0 means any free one.
    ///
    /// # Errors
    /// When the port is taken.
    pub fn start_at(dir: &Path, port: u16) -> Result<Self> {
        let http = tiny_http::Server::http((Ipv4Addr::LOCALHOST, port))
            .map_err(|error| anyhow!("cannot listen on 127.0.0.1:{port}: {error}"))?;
        let address = http
            .server_addr()
            .to_ip()
            .ok_or_else(|| anyhow!("the server has no address"))?;
        let http = Arc::new(http);
        let stopping = Arc::new(AtomicBool::new(false));
        // A browser asks for several files at once.
        let threads = (0..4)
            .map(|_| {
                let (http, stopping) = (Arc::clone(&http), Arc::clone(&stopping));
                let dir = dir.to_path_buf();
                std::thread::spawn(move || answer_until(&http, &stopping, &dir))
            })
            .collect();
        Ok(Self {
            address,
            stopping,
            threads,
        })
    }

    /// Serves a folder on the first free port of `count` from `port` on.
    ///
    /// # Errors
    /// When none of them is free.
    pub fn start_from(dir: &Path, port: u16, count: u16) -> Result<Self> {
        let last = port.saturating_add(count.saturating_sub(1));
        let mut failed = anyhow!("no port to try");
        for port in port..=last {
            match Self::start_at(dir, port) {
                Ok(server) => return Ok(server),
                Err(error) => failed = error,
            }
        }
        Err(failed.context(format!(
            "no free port from {port} to {last}. By hand: cargo xtask serve --port N"
        )))
    }

    /// The address of the site, ending in a slash.
    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// The port it listens on.
    pub fn port(&self) -> u16 {
        self.address.port()
    }

    /// Stops; when this returns, the port refuses. A connection that a browser kept open from
    /// before is no longer answered.
    pub fn stop(mut self) {
        self.halt();
    }

    fn halt(&mut self) {
        self.stopping.store(true, Ordering::Relaxed);
        for thread in self.threads.drain(..) {
            // A thread that panicked has stopped as well.
            drop(thread.join());
        }
        // The listening thread ends with the next connection, which tiny_http makes itself.
        let end = Instant::now() + Duration::from_secs(5);
        while TcpStream::connect(self.address).is_ok() && Instant::now() < end {
            std::thread::sleep(Duration::from_millis(10));
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if !self.threads.is_empty() {
            self.halt();
        }
    }
}

fn answer_until(http: &tiny_http::Server, stopping: &AtomicBool, dir: &Path) {
    while !stopping.load(Ordering::Relaxed) {
        match http.recv_timeout(Duration::from_millis(50)) {
            Ok(Some(request)) => answer(request, dir),
            Ok(None) => {}
            // The socket itself failed: no request will come any more.
            Err(_) => return,
        }
    }
}

/// Answers one request; a browser that went away meanwhile is no error.
fn answer(request: Request, dir: &Path) {
    let text = |status: u16, text: &str| Response::from_string(text).with_status_code(status);
    if !matches!(request.method(), Method::Get | Method::Head) {
        drop(request.respond(text(405, "only GET and HEAD")));
        return;
    }
    let Some(path) = path_of(request.url(), dir) else {
        drop(request.respond(text(404, "no such file")));
        return;
    };
    match fs::read(&path) {
        Ok(content) => {
            let mut response = Response::from_data(content);
            for (name, value) in headers(&path) {
                if let Ok(header) = Header::from_bytes(name, value) {
                    response.add_header(header);
                }
            }
            drop(request.respond(response));
        }
        Err(_) => drop(request.respond(text(404, "no such file"))),
    }
}

/// The file that a request means; nothing outside the folder and nothing hidden.
fn path_of(url: &str, dir: &Path) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    let path = if path.is_empty() { "index.html" } else { path };
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_.".contains(c);
    let allowed = |part: &str| !part.starts_with('.') && part.chars().all(plain);
    path.split('/')
        .all(|part| !part.is_empty() && allowed(part))
        .then(|| dir.join(path))
}

fn headers(path: &Path) -> [(&'static str, &'static str); 3] {
    let extension = path.extension().unwrap_or_default().to_string_lossy();
    let kind = match &*extension {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        _ => "application/octet-stream",
    };
    let keep = if has_digest(path) {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    [
        ("Content-Type", kind),
        ("Cache-Control", keep),
        ("X-Content-Type-Options", "nosniff"),
    ]
}

/// Whether a name carries twelve digits of a digest, as [`crate::site`] gives them.
fn has_digest(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let stem = name.trim_end_matches(".card.json");
    let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem);
    let digest = stem.rsplit_once('-').map_or("", |(_, digest)| digest);
    digest.len() == 12 && digest.chars().all(|c| c.is_ascii_hexdigit())
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};

    use super::*;

    fn get(port: u16, request: &str) -> String {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
        let text = format!("{request} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
        stream.write_all(text.as_bytes()).unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn files_are_served_until_the_stop() {
        let dir = tempfile::tempdir().unwrap();
        fs::write(dir.path().join("index.html"), "<p>here").unwrap();
        fs::write(dir.path().join("app-0123456789ab.wasm"), "wasm").unwrap();
        let server = Server::start(dir.path()).unwrap();
        let port = server.port();

        let page = get(port, "GET /?a=b");
        assert!(
            page.contains("text/html") && page.contains("no-cache"),
            "{page}"
        );
        assert!(page.ends_with("<p>here"), "{page}");
        let wasm = get(port, "GET /app-0123456789ab.wasm");
        assert!(
            wasm.contains("application/wasm") && wasm.contains("immutable"),
            "{wasm}"
        );
        assert!(!get(port, "HEAD /").contains("here"));
        for nothing in [
            "/../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "//etc/passwd",
            "/none.js",
            "/.git",
        ] {
            let answer = get(port, &format!("GET {nothing}"));
            assert!(answer.starts_with("HTTP/1.1 404"), "{nothing}: {answer}");
        }
        assert!(get(port, "POST /").starts_with("HTTP/1.1 405"));

        server.stop();
        assert!(TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err());
        let again = Server::start_at(dir.path(), port).unwrap();
        assert!(get(port, "GET /").ends_with("<p>here"));
        let beside = Server::start_from(dir.path(), port, 20).unwrap();
        assert_ne!(beside.port(), again.port());
    }

    #[test]
    fn only_names_with_a_digest_are_kept_for_ever() {
        assert!(has_digest("demo-a-b-0123456789ab.card.json".as_ref()));
        assert!(!has_digest("index.html".as_ref()));
        assert!(!has_digest("icon-512.png".as_ref()));
    }
}
