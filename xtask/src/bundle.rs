//! The app as WebAssembly and the JavaScript that starts it.
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail, ensure};
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use wasm_bindgen_cli_support::Bindgen;

use crate::assets::web;
use crate::metadata::Metadata;
use crate::run::{run, say};
use crate::size::gzip;
use crate::toolchain::{TARGET, Wasm};
use crate::workspace::Workspace;

/// The parts of the app, the same bytes in both editions.
#[derive(Debug, Clone)]
pub struct Bundle {
    /// The module that loads the wasm; its default export starts the app.
    pub glue: String,
    /// The app.
    pub wasm: Vec<u8>,
    /// A script that runs beside the page, its own wasm within it.
    pub worker: String,
}

/// A wasm with the script that loads it.
struct Bound {
    glue: String,
    wasm: Vec<u8>,
}

impl Bundle {
    /// Compiles the app and what runs beside it, and writes their glue.
    ///
    /// # Errors
    /// When the compiler is missing or refuses the app, and when the result holds what neither
    /// edition can carry: JavaScript files beside the glue, or a path of this machine.
    pub fn make(ws: &Workspace) -> Result<Self> {
        let app = bind(&compiled(ws, "ringland-app", "web")?, Loaded::AsModule)?;
        let worker = bind(
            &compiled(ws, "ringland-worker", "worker")?,
            Loaded::AsScript,
        )?;
        for part in [&app, &worker] {
            part.refuse_local_paths(ws)?;
        }
        let packed = BASE64.encode(gzip(&worker.wasm));
        let acts = web(ws, "worker.js")?.replace("%WASM%", &packed);
        Ok(Self {
            glue: app.glue,
            wasm: app.wasm,
            worker: format!("{}\n{acts}", worker.glue),
        })
    }
}

/// Compiles a package for the browser with a profile, and says where the wasm lies.
fn compiled(ws: &Workspace, package: &str, profile: &str) -> Result<PathBuf> {
    let wasm = Wasm::ensure(ws)?;
    run(
        &format!("compiling {package} for the browser"),
        wasm.cargo(ws, "build")
            .args(["-p", package, "--profile", profile]),
    )?;
    // A program keeps its name; a library is named as Rust names it.
    let folder = ws.target("web").join(TARGET).join(profile);
    let names = [package.to_owned(), package.replace('-', "_")];
    let mut files = names
        .map(|name| folder.join(format!("{name}.wasm")))
        .into_iter();
    files.find(|file| file.is_file()).with_context(|| {
        format!(
            "{package} was compiled, but its wasm is not in {}",
            folder.display()
        )
    })
}

/// How a page or a worker takes the glue in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Loaded {
    /// As a module of the page.
    AsModule,
    /// As a plain script: not every browser starts a worker from a module that has no address.
    AsScript,
}

fn bind(input: &Path, loaded: Loaded) -> Result<Bound> {
    say("writing the glue between wasm and the browser");
    let mut bindgen = Bindgen::new();
    let bindgen = match loaded {
        Loaded::AsModule => bindgen.web(true)?,
        Loaded::AsScript => bindgen.no_modules(true)?,
    };
    let mut output = bindgen
        .input_path(input)
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate_output()
        .context("wasm-bindgen refuses the compiled app")?;
    // The single file has no place for further modules.
    // wasm-bindgen lists every crate that could bring some, with the scripts it does bring.
    let snippets = output
        .snippets()
        .iter()
        .filter(|(_, scripts)| !scripts.is_empty());
    let extra: Vec<&str> = snippets
        .map(|(from, _)| from)
        .chain(output.local_modules().keys())
        .chain(output.npm_dependencies().keys())
        .map(String::as_str)
        .collect();
    ensure!(
        extra.is_empty(),
        "the app brings JavaScript of its own ({}): say it in Rust with web-sys",
        extra.join(", ")
    );
    Ok(Bound {
        glue: output.js().to_owned(),
        wasm: output.wasm_mut().emit_wasm(),
    })
}

impl Bound {
    fn refuse_local_paths(&self, ws: &Workspace) -> Result<()> {
        let mut folders = vec![ws.root().to_path_buf()];
        folders.extend(Metadata::read(ws)?.source_folders());
        folders.extend(std::env::home_dir().filter(|home| home.components().count() > 1));
        for folder in folders {
            let name = format!("{}/", folder.display());
            let place = find(&self.wasm, name.as_bytes()).map(|at| (&self.wasm[..], at));
            let glue = self.glue.as_bytes();
            if let Some((bytes, at)) =
                place.or_else(|| find(glue, name.as_bytes()).map(|at| (glue, at)))
            {
                let end = bytes.len().min(at + name.len() + 60);
                bail!(
                    "the compiled app holds a path of this machine: {}",
                    String::from_utf8_lossy(&bytes[at..end])
                );
            }
        }
        Ok(())
    }
}

fn find(haystack: &[u8], needle: &[u8]) -> Option<usize> {
    haystack
        .windows(needle.len())
        .position(|window| window == needle)
}
