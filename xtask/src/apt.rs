//! Packages of a Debian system.
use std::process::Command;

use anyhow::{Result, bail};

use crate::run::{output, program, run, say};

/// Installs those of these packages that are missing, for root; tells anyone else what to run.
///
/// # Errors
/// Where there is no apt-get, where the person is not root, and where the installation fails.
pub fn ensure(why: &str, packages: &[&str]) -> Result<()> {
    let missing: Vec<&str> = packages.iter().copied().filter(|p| !installed(p)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    ensure_newest(why, &missing)
}

/// Installs these packages in the newest version that this system is offered.
///
/// # Errors
/// As [`ensure`].
pub fn ensure_newest(why: &str, packages: &[&str]) -> Result<()> {
    let list = packages.join(" ");
    if program(&["apt-get"]).is_none() {
        bail!("{why}: missing, and there is no apt-get here to install {list} with");
    }
    if !root() {
        bail!(
            "{why}: missing or old packages, and only root can install them. \
             By hand: sudo apt-get update && sudo apt-get install -y {list}"
        );
    }
    say(&format!("{why}: installing {list}"));
    run(
        "reading the package lists",
        Command::new("apt-get").args(["-qq", "update"]),
    )?;
    // Nothing that stands on this machine is taken away for it: that is for a person to decide.
    run(
        "installing the packages",
        Command::new("apt-get")
            .env("DEBIAN_FRONTEND", "noninteractive")
            .args([
                "-qq",
                "install",
                "-y",
                "--no-install-recommends",
                "--no-remove",
            ])
            .args(packages),
    )
}

fn installed(package: &str) -> bool {
    output(Command::new("dpkg-query").args(["-W", "-f=${db:Status-Status}", package]))
        .is_ok_and(|status| status == "installed")
}

fn root() -> bool {
    output(Command::new("id").arg("-u")).is_ok_and(|id| id.trim() == "0")
}
