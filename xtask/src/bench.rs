//! `cargo xtask bench`: how fast, beside something known, in one run.
use anyhow::Result;

use crate::run::{cargo, run};
use crate::tools::{BENCH, python};
use crate::workspace::Workspace;

/// Builds the measuring program and runs it.
///
/// # Errors
/// When something that it needs cannot be had, or the two things measured do not agree.
pub fn bench(ws: &Workspace) -> Result<()> {
    let python = python(ws, BENCH)?;
    run(
        "building what measures",
        cargo()
            .current_dir(ws.root())
            .args(["build", "--quiet", "--release", "-p", "bench"]),
    )?;
    let program = format!("release/bench{}", std::env::consts::EXE_SUFFIX);
    run(
        "measuring natively",
        std::process::Command::new(ws.target(&program))
            .arg("native")
            .arg(python),
    )
}
