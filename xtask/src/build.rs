//! `cargo xtask build`: both editions into `dist/`.
use std::fs;
use std::time::Instant;

use anyhow::{Context, Result};

use crate::assets::Assets;
use crate::bundle::Bundle;
use crate::run::say;
use crate::workspace::Workspace;
use crate::{single_file, site, size};

/// Builds both editions and holds their size against the limit.
///
/// # Errors
/// When a step fails; it says which, and what to run by hand.
pub fn build(ws: &Workspace) -> Result<()> {
    let begun = Instant::now();
    let bundle = Bundle::make(ws)?;
    let assets = Assets::read(ws)?;
    let mut files = site::files(ws, &bundle, &assets)?;
    let single = single_file::page(ws, &bundle, &assets)?;
    let sizes = size::report(&files, &single);
    files.insert(single_file::NAME.to_owned(), single.into_bytes());
    write(ws, &files)?;
    say(&format!(
        "both editions are in {}, {} s after the start",
        ws.dist().display(),
        begun.elapsed().as_secs()
    ));
    sizes
}

/// Writes the new files, then takes the old ones away: a page being loaded meanwhile finds its own.
fn write(ws: &Workspace, files: &site::Files) -> Result<()> {
    let dist = ws.dist();
    let failed = || format!("writing {}", dist.display());
    fs::create_dir_all(&dist).with_context(failed)?;
    for (name, content) in files {
        fs::write(dist.join(name), content).with_context(failed)?;
    }
    for entry in fs::read_dir(&dist).with_context(failed)? {
        let entry = entry?;
        if !files.contains_key(&*entry.file_name().to_string_lossy()) && entry.path().is_file() {
            fs::remove_file(entry.path()).with_context(failed)?;
        }
    }
    Ok(())
}
