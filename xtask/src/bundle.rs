//! The app as WebAssembly and the JavaScript that starts it.
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};
use wasm_bindgen_cli_support::Bindgen;

use crate::metadata::Metadata;
use crate::run::{run, say};
use crate::toolchain::{TARGET, Wasm};
use crate::workspace::Workspace;

/// The two parts of the app, the same bytes in both editions.
#[derive(Debug, Clone)]
pub struct Bundle {
    /// The module that loads the wasm; its default export starts the app.
    pub glue: String,
    /// The app.
    pub wasm: Vec<u8>,
}

impl Bundle {
    /// Compiles the app with the `web` profile and writes its glue.
    ///
    /// # Errors
    /// When the compiler is missing or refuses the app, and when the result holds what neither
    /// edition can carry: JavaScript files beside the glue, or a path of this machine.
    pub fn make(ws: &Workspace) -> Result<Self> {
        let wasm = Wasm::ensure(ws)?;
        run(
            "compiling the app for the browser",
            wasm.cargo(ws, "build")
                .args(["-p", "ringland-app", "--profile", "web"]),
        )?;
        let input = ws.target("web").join(TARGET).join("web/ringland-app.wasm");
        let bundle = Self::bind(&input)?;
        bundle.refuse_local_paths(ws)?;
        Ok(bundle)
    }

    fn bind(input: &Path) -> Result<Self> {
        say("writing the glue between the app and the browser");
        let mut output = Bindgen::new()
            .input_path(input)
            .web(true)?
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
        Ok(Self {
            glue: output.js().to_owned(),
            wasm: output.wasm_mut().emit_wasm(),
        })
    }

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
