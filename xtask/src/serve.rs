//! `cargo xtask serve`: build, then serve until stopped.
use anyhow::Result;

use crate::build::build;
use crate::server::Server;
use crate::workspace::Workspace;

/// How many ports are tried from the first.
const PORTS: u16 = 20;

/// Builds the site and serves it; returns only when that is not possible.
///
/// # Errors
/// When the build fails, or none of the ports is free.
pub fn serve(ws: &Workspace, port: u16) -> Result<()> {
    build(ws)?;
    let server = Server::start_from(&ws.dist(), port, PORTS)?;
    println!("\nRingland is at {} (Ctrl-C stops it)", server.url());
    loop {
        std::thread::park();
    }
}
