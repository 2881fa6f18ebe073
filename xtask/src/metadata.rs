//! What cargo knows of the packages in the lock file.
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use serde::Deserialize;

use crate::run::{cargo, output};
use crate::workspace::Workspace;

/// The packages of the workspace and all they depend on.
#[derive(Debug, Deserialize)]
pub struct Metadata {
    /// Every package, on every target.
    pub packages: Vec<Package>,
}

/// One package.
#[derive(Debug, Deserialize)]
pub struct Package {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
    /// Its licence as an SPDX expression, where it says one.
    pub license: Option<String>,
    /// Where it comes from; `None` for a package of this workspace.
    pub source: Option<String>,
    /// Its `Cargo.toml`.
    pub manifest_path: PathBuf,
    /// What its `Cargo.toml` asks for.
    pub dependencies: Vec<Dependency>,
}

/// A dependency that a package asks for.
#[derive(Debug, Deserialize)]
pub struct Dependency {
    /// The name of the package asked for.
    pub name: String,
    /// `None` for an ordinary dependency, else `dev` or `build`.
    pub kind: Option<String>,
}

impl Metadata {
    /// Asks cargo, which first downloads what the lock file names and this machine lacks.
    ///
    /// # Errors
    /// When cargo cannot say, for instance because a download fails.
    pub fn read(ws: &Workspace) -> Result<Self> {
        let text = output(
            cargo()
                .args(["metadata", "--format-version", "1"])
                .current_dir(ws.root()),
        )?;
        serde_json::from_str(&text).context("what `cargo metadata` wrote cannot be read")
    }

    /// The folders that hold the sources of outside packages.
    pub fn source_folders(&self) -> BTreeSet<PathBuf> {
        let outside = self.packages.iter().filter(|p| p.source.is_some());
        outside
            .filter_map(|p| p.manifest_path.parent().and_then(Path::parent))
            .map(Path::to_path_buf)
            .collect()
    }
}
