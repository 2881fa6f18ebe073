//! Where things are in this checkout.
use std::path::{Path, PathBuf};

use anyhow::{Result, ensure};

/// The checkout and the folders of it that the other modules use.
#[derive(Debug, Clone)]
pub struct Workspace {
    root: PathBuf,
    target: PathBuf,
}

impl Workspace {
    /// The checkout that this xtask belongs to.
    ///
    /// # Errors
    /// When the folder it was built in has gone.
    pub fn find() -> Result<Self> {
        // cargo gives the folder at run time too, which stays right when a checkout was moved.
        let xtask = std::env::var_os("CARGO_MANIFEST_DIR")
            .map(PathBuf::from)
            .filter(|dir| dir.ends_with("xtask"))
            .unwrap_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")));
        let root = xtask.parent().map(Path::to_path_buf).unwrap_or_default();
        ensure!(
            root.join("Cargo.lock").is_file(),
            "no checkout of Ringland at {}: run `cargo xtask` from inside one",
            root.display()
        );
        let target = std::env::var_os("CARGO_TARGET_DIR")
            .map_or_else(|| root.join("target"), |dir| root.join(dir));
        Ok(Self { root, target })
    }

    /// The top of the checkout.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// A file or folder of the checkout.
    pub fn path(&self, relative: &str) -> PathBuf {
        self.root.join(relative)
    }

    /// A file or folder under cargo's target folder.
    pub fn target(&self, relative: &str) -> PathBuf {
        self.target.join(relative)
    }

    /// Where both editions are written.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }
}
