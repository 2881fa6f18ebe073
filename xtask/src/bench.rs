//! `cargo xtask bench`: how fast, beside something known, in one run.
use anyhow::Result;

use crate::build::build;
use crate::run::{cargo, run};
use crate::test::end_to_end;
use crate::tools::{BENCH, python};
use crate::workspace::Workspace;

/// Builds what measures and what is measured, and runs it: natively, then in the browser.
///
/// # Errors
/// When something that it needs cannot be had, or two things measured do not agree.
pub fn bench(ws: &Workspace) -> Result<()> {
    natively(ws)?;
    build(ws)?;
    run(
        "measuring in the browser",
        end_to_end(ws)?.args([
            "--test",
            "journey",
            "figures",
            "--",
            "--ignored",
            "--nocapture",
            // One after the other: two browsers at once would measure each other.
            "--test-threads=1",
        ]),
    )
}

fn natively(ws: &Workspace) -> Result<()> {
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
