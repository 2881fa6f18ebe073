//! A compiler with the standard library for the browser.
//!
//! Three ways, the first that works is taken:
//! 1. the active Rust already has `wasm32-unknown-unknown`, or `rustup target add` brings it: any
//!    ordinary machine;
//! 2. the standard library that an earlier run built, in `target/wasm-sysroot`;
//! 3. Debian's compiler and the source of its own standard library, which is built once into
//!    `target/wasm-sysroot`. Only installing the packages needs root; nothing is written outside
//!    the checkout, so root and an ordinary user go the same way.
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use anyhow::{Context, Result, bail, ensure};

use crate::run::{output, program, run, say, within};
use crate::workspace::Workspace;
use crate::{apt, metadata::Metadata};

/// The target that browsers run.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// How long `rustup target add` may take: without a way to the internet it hangs for minutes.
const RUSTUP_LIMIT: Duration = Duration::from_secs(20);

/// Debian's compiler, built from the same sources as the library beside it.
const DEBIAN_BIN: &str = "/usr/bin";

/// A cargo that builds for the browser.
#[derive(Debug, Clone)]
pub struct Wasm {
    rustc: PathBuf,
    /// Set when the compiler is Debian's and its library was built here.
    sysroot: Option<PathBuf>,
    flags: Vec<String>,
}

impl Wasm {
    /// Finds a way, or makes one.
    ///
    /// # Errors
    /// Where none of the three ways can be gone; the message holds what to run by hand.
    pub fn ensure(ws: &Workspace) -> Result<Self> {
        let active = PathBuf::from(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()));
        let (rustc, sysroot) = if has_std(&active) {
            (active, None)
        } else if let Some(sysroot) = debian_ready(ws) {
            (debian("rustc"), Some(sysroot))
        } else if rustup_adds(&active) {
            (active, None)
        } else {
            let sysroot = debian_make(ws).context(format!(
                "no standard library for {TARGET}. By hand: rustup target add {TARGET}; \
                 or on Debian the following"
            ))?;
            (debian("rustc"), Some(sysroot))
        };
        let flags = flags(ws, &rustc, sysroot.as_deref())?;
        Ok(Self {
            rustc,
            sysroot,
            flags,
        })
    }

    /// A call of cargo, its files in `target/web` so that builds for the browser and for this
    /// machine do not push each other out.
    pub fn cargo(&self, ws: &Workspace, subcommand: &str) -> Command {
        let mut command = if self.sysroot.is_some() {
            let program = match subcommand {
                // Found by its path: cargo would look in its own folder first, which may be
                // another toolchain's.
                "clippy" => "cargo-clippy",
                _ => "cargo",
            };
            let mut command = Command::new(debian(program));
            let path = std::env::var_os("PATH").unwrap_or_default();
            let first = std::iter::once(PathBuf::from(DEBIAN_BIN));
            if let Ok(path) = std::env::join_paths(first.chain(std::env::split_paths(&path))) {
                command.env("PATH", path);
            }
            command
                .env("CARGO", debian("cargo"))
                .env("RUSTC", &self.rustc)
                .env("RUSTDOC", debian("rustdoc"))
                // The running toolchain's own libraries, which are not this compiler's.
                .env_remove("LD_LIBRARY_PATH")
                .env_remove("RUSTUP_TOOLCHAIN");
            command
        } else {
            crate::run::cargo()
        };
        let flags = self.flags.join("\u{1f}");
        command
            .current_dir(ws.root())
            .env("CARGO_ENCODED_RUSTFLAGS", &flags)
            .env("CARGO_ENCODED_RUSTDOCFLAGS", &flags)
            .arg(subcommand)
            .args(["--target", TARGET, "--target-dir"])
            .arg(ws.target("web"));
        command
    }

    /// Whether the compiler is Debian's, whose further tools come from Debian too.
    pub fn is_debian(&self) -> bool {
        self.sysroot.is_some()
    }
}

/// The compiler's flags: where its library is, and no path of this machine in the wasm.
fn flags(ws: &Workspace, rustc: &Path, sysroot: Option<&Path>) -> Result<Vec<String>> {
    // Leptos: one type for every view, not one type a view. The app is a third of the size.
    let mut flags = vec!["--cfg".to_owned(), "erase_components".to_owned()];
    if let Some(sysroot) = sysroot {
        flags.push(format!("--sysroot={}", sysroot.display()));
    }
    let own = output(Command::new(rustc).args(["--print", "sysroot"]))?;
    let library = Path::new(own.trim()).join("lib/rustlib/src/rust");
    flags.push(format!("--remap-path-prefix={}=rust", library.display()));
    for folder in Metadata::read(ws)?.source_folders() {
        flags.push(format!("--remap-path-prefix={}=crates", folder.display()));
    }
    flags.push(format!(
        "--remap-path-prefix={}=ringland",
        ws.root().display()
    ));
    Ok(flags)
}

fn debian(program: &str) -> PathBuf {
    Path::new(DEBIAN_BIN).join(program)
}

fn has_std(rustc: &Path) -> bool {
    let mut ask = Command::new(rustc);
    ask.args(["--print", "target-libdir", "--target", TARGET]);
    output(&mut ask).is_ok_and(|dir| holds_std(Path::new(dir.trim())))
}

fn holds_std(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|entries| {
        entries
            .flatten()
            .any(|entry| entry.file_name().to_string_lossy().starts_with("libstd-"))
    })
}

fn rustup_adds(active: &Path) -> bool {
    let Some(rustup) = program(&["rustup"]) else {
        return false;
    };
    say(&format!(
        "the standard library for the browser: rustup target add {TARGET} (at most {} s)",
        RUSTUP_LIMIT.as_secs()
    ));
    let added = within(
        RUSTUP_LIMIT,
        Command::new(rustup).args(["target", "add", TARGET]),
    );
    let there = added.unwrap_or(false) && has_std(active);
    if !there {
        say("rustup could not bring it: trying Debian's compiler instead");
    }
    there
}

/// What the library in `target/wasm-sysroot` was made by, and how.
fn stamp(rustc_version: &str) -> String {
    format!("layout 1\n{rustc_version}")
}

fn debian_ready(ws: &Workspace) -> Option<PathBuf> {
    let version = output(Command::new(debian("rustc")).arg("-vV")).ok()?;
    let sysroot = ws.target("wasm-sysroot");
    let made_by = fs::read_to_string(sysroot.join("made-by")).ok()?;
    (made_by == stamp(&version)).then_some(sysroot)
}

fn debian_make(ws: &Workspace) -> Result<PathBuf> {
    let why = "Debian's Rust compiler";
    let recent = || {
        output(Command::new(debian("rustc")).arg("-vV")).is_ok_and(|text| recent_enough(&text))
            && debian("cargo").is_file()
            && vendored().is_ok_and(|dir| dir.is_dir())
    };
    if !recent() {
        apt::ensure_newest(why, &["rustc-web", "cargo-web", "rust-web-src"])?;
        ensure!(
            recent(),
            "{why}: /usr/bin/rustc is older than {} (Debian has newer ones in its security updates) or its library's source is missing. \
             By hand: apt-get install rustc-web cargo-web rust-web-src",
            env!("CARGO_PKG_RUST_VERSION")
        );
    }
    let version = output(Command::new(debian("rustc")).arg("-vV"))?;
    let llvm = field(&version, "LLVM version: ")?
        .split('.')
        .next()
        .unwrap_or_default()
        .to_owned();
    let lld = PathBuf::from(format!("/usr/lib/llvm-{llvm}/bin/lld"));
    if !lld.is_file() {
        apt::ensure("the linker for the browser", &[&format!("lld-{llvm}")])?;
    }
    let sysroot = ws.target("wasm-sysroot");
    let rlibs = build_std(ws)?;
    install_std(&sysroot, &rlibs, &lld, field(&version, "host: ")?)?;
    // The stamp comes last: half a library is not taken for a whole one.
    fs::write(sysroot.join("made-by"), stamp(&version))?;
    Ok(sysroot)
}

fn recent_enough(rustc_version: &str) -> bool {
    let minor = |version: &str| -> Option<u32> { version.split('.').nth(1)?.parse().ok() };
    field(rustc_version, "release: ")
        .is_ok_and(|release| minor(release) >= minor(env!("CARGO_PKG_RUST_VERSION")))
}

fn field<'a>(text: &'a str, name: &str) -> Result<&'a str> {
    text.lines()
        .find_map(|line| line.strip_prefix(name))
        .with_context(|| {
            format!(
                "`rustc -vV` does not say its {}",
                name.trim_end_matches(": ")
            )
        })
}

/// The sources of the crates that Debian's standard library depends on.
fn vendored() -> Result<PathBuf> {
    let sysroot = output(Command::new(debian("rustc")).args(["--print", "sysroot"]))?;
    Ok(Path::new(sysroot.trim()).join("lib/rustlib/src/rust/library/vendor"))
}

/// Builds the standard library with the compiler whose sources it shares; needs no network.
fn build_std(ws: &Workspace) -> Result<Vec<PathBuf>> {
    let work = ws.target("wasm-std");
    fs::create_dir_all(work.join("src"))?;
    fs::write(work.join("src/lib.rs"), "#![no_std]\n")?;
    fs::write(
        work.join("Cargo.toml"),
        "[package]\nname = \"stdmaker\"\nversion = \"0.0.0\"\nedition = \"2024\"\n\
         [profile.release]\nopt-level = 3\ndebug = 0\n[workspace]\n",
    )?;
    let vendor = vendored()?;
    let library = vendor.parent().and_then(Path::parent).unwrap_or(&vendor);
    // Bitcode, so that the app's link-time optimisation reaches into the library.
    let flags = format!(
        "-Cembed-bitcode=yes\u{1f}--remap-path-prefix={}=rust",
        library.display()
    );
    run(
        "building the standard library for the browser from Debian's sources (about 30 s)",
        Command::new(debian("cargo"))
            .current_dir(&work)
            .env("CARGO", debian("cargo"))
            .env("RUSTC", debian("rustc"))
            // Stable Debian compiler, its own library: the one use that needs the flag.
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_ENCODED_RUSTFLAGS", flags)
            .env_remove("LD_LIBRARY_PATH")
            .args([
                "build",
                "--quiet",
                "--release",
                "--offline",
                "--target",
                TARGET,
            ])
            .arg("--target-dir")
            .arg(work.join("target"))
            .arg("-Zbuild-std=std,panic_abort,panic_unwind,test,proc_macro")
            .args([
                "--config",
                "source.crates-io.replace-with=\"vendored\"",
                "--config",
            ])
            .arg(format!(
                "source.vendored.directory={:?}",
                vendor.display().to_string()
            )),
    )?;
    let built = work.join("target").join(TARGET).join("release/deps");
    let mut rlibs = Vec::new();
    for entry in fs::read_dir(&built).with_context(|| format!("reading {}", built.display()))? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if name.ends_with(".rlib") && !name.starts_with("libstdmaker-") {
            rlibs.push(path);
        }
    }
    Ok(rlibs)
}

fn install_std(sysroot: &Path, rlibs: &[PathBuf], lld: &Path, host: &str) -> Result<()> {
    if sysroot.exists() {
        fs::remove_dir_all(sysroot)?;
    }
    let libraries = sysroot.join("lib/rustlib").join(TARGET).join("lib");
    fs::create_dir_all(&libraries)?;
    for rlib in rlibs {
        let name = rlib.file_name().unwrap_or_default();
        fs::copy(rlib, libraries.join(name))?;
    }
    if !holds_std(&libraries) {
        bail!("the standard library for the browser was built, but is not among what was written");
    }
    // The name and place under which rustc looks for the linker of this target.
    let bin = sysroot.join("lib/rustlib").join(host).join("bin");
    fs::create_dir_all(&bin)?;
    link(lld, &bin.join("rust-lld"))
}

#[cfg(unix)]
fn link(from: &Path, to: &Path) -> Result<()> {
    std::os::unix::fs::symlink(from, to)
        .with_context(|| format!("linking {} to {}", to.display(), from.display()))
}

#[cfg(not(unix))]
fn link(_from: &Path, _to: &Path) -> Result<()> {
    bail!("Debian's compiler is for Debian only: use rustup target add {TARGET}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_version_of_the_compiler_is_read() {
        let text =
            "rustc 1.96.0\nhost: x86_64-unknown-linux-gnu\nrelease: 1.96.0\nLLVM version: 22.1.8\n";
        assert!(recent_enough(text));
        assert!(!recent_enough("release: 1.63.0\n"));
        assert_eq!(field(text, "host: ").unwrap(), "x86_64-unknown-linux-gnu");
        assert!(field("", "host: ").is_err());
    }
}
