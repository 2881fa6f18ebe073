//! Programs and packages that only the tests need: gets what is missing.
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use sha2::{Digest, Sha512};

use crate::apt;
use crate::run::{program, run};
use crate::workspace::Workspace;

/// A Python of its own with the packages of a list, every one with its version.
#[derive(Debug, Clone, Copy)]
pub struct PythonWith {
    /// What it is for, as a person is told.
    pub what: &'static str,
    /// Its folder in `target`.
    pub folder: &'static str,
    /// The list.
    pub packages: &'static str,
}

/// For the reference checks.
pub const REFERENCE: PythonWith = PythonWith {
    what: "the reference checks",
    folder: "py",
    packages: "tests/reference/requirements.txt",
};

/// For what `cargo xtask bench` measures beside.
pub const BENCH: PythonWith = PythonWith {
    what: "what is measured beside",
    folder: "py-bench",
    packages: "bench/requirements.txt",
};

/// The accessibility checker, and the digest that its package has in the registry.
const AXE: &str = "axe-core@4.14.1";
const AXE_SHA512: &str =
    "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ==";

/// Makes such a Python in `target`, where it is not there yet.
///
/// # Errors
/// Where Python is missing and cannot be installed, or a package cannot be had.
pub fn python(ws: &Workspace, with: PythonWith) -> Result<PathBuf> {
    let folder = ws.target(with.folder);
    let python = folder.join("bin/python");
    let stamp = folder.join("packages");
    let list = ws.path(with.packages);
    let wanted =
        fs::read_to_string(&list).with_context(|| format!("reading {}", list.display()))?;
    if python.is_file() && fs::read_to_string(&stamp).is_ok_and(|made| made == wanted) {
        return Ok(python);
    }
    if program(&["python3"]).is_none() {
        apt::ensure("Python", &["python3", "python3-venv"])?;
    }
    let make = || {
        run(
            &format!("making a Python environment in target/{}", with.folder),
            Command::new("python3")
                .args(["-m", "venv", "--clear"])
                .arg(&folder),
        )
    };
    // Debian's Python comes without the part that makes environments.
    make().or_else(|failed| {
        apt::ensure("Python's environments", &["python3-venv"]).context(failed)?;
        make()
    })?;
    run(
        &format!("Python packages for {}, from {}", with.what, with.packages),
        Command::new(&python)
            .args(["-m", "pip", "install", "--quiet"])
            .args(["--disable-pip-version-check", "-r"])
            .arg(&list),
    )?;
    fs::write(stamp, wanted)?;
    Ok(python)
}

/// The accessibility checker's script, in `target/node`.
///
/// # Errors
/// Where it cannot be had, or is not the one that was pinned.
pub fn axe(ws: &Workspace) -> Result<PathBuf> {
    let folder = ws.target("node");
    let script = folder.join(format!("{AXE}.js"));
    if script.is_file() {
        return Ok(script);
    }
    fs::create_dir_all(&folder)?;
    let package = folder.join("axe-core-4.14.1.tgz");
    if !matches_pin(&package) {
        fetch_axe(&folder)?;
        ensure!(
            matches_pin(&package),
            "{} is not the {AXE} that was pinned: remove it and try again",
            package.display()
        );
    }
    run(
        "unpacking the accessibility checker",
        Command::new("tar")
            .current_dir(&folder)
            .arg("-xzf")
            .arg(&package)
            .arg("package/axe.min.js"),
    )?;
    fs::rename(folder.join("package/axe.min.js"), &script)?;
    Ok(script)
}

fn matches_pin(package: &Path) -> bool {
    fs::read(package).is_ok_and(|bytes| BASE64.encode(Sha512::digest(bytes)) == AXE_SHA512)
}

/// With npm, which knows the registry of this machine; where there is none, with Debian's.
fn fetch_axe(folder: &Path) -> Result<()> {
    let pack = || {
        run(
            &format!("the accessibility checker: npm pack {AXE}"),
            Command::new("npm")
                .current_dir(folder)
                .args(["pack", "--silent", AXE]),
        )
    };
    if program(&["npm"]).is_some() {
        return pack();
    }
    apt::ensure("npm", &["npm"])?;
    if program(&["npm"]).is_none() {
        bail!("npm was installed but is not on the search path");
    }
    pack()
}
