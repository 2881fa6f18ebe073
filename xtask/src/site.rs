//! The site edition: static files for any web server, all of them kept by a service worker.
//!
//! Every file but four has a digest in its name, so that a server may let browsers keep it for
//! ever. The four are looked for by name: the page, the worker, the manifest (installed copies
//! know it by its address) and the single file.
use std::collections::BTreeMap;
use std::fmt::Write;

use anyhow::Result;
use serde_json::json;
use sha2::{Digest, Sha256};

use crate::assets::{Assets, web};
use crate::bundle::Bundle;
use crate::page::{DemoEntry, Template, WorkerAt, demo_block, digest_source, inline, worker_block};
use crate::workspace::Workspace;

/// The files of the site by name.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Where demo engines begin in the list of files: their size is not the app's.
pub const DEMO_PREFIX: &str = "demo-";

/// Makes all files of the site.
///
/// # Errors
/// When a part of the page cannot be read or cannot stand inline.
pub fn files(ws: &Workspace, bundle: &Bundle, assets: &Assets) -> Result<Files> {
    let mut files = Files::new();
    let glue = add(&mut files, "app", "js", bundle.glue.as_bytes());
    let wasm = add(&mut files, "app", "wasm", &bundle.wasm);
    let worker = add(&mut files, "worker", "js", bundle.worker.as_bytes());
    let css = add(&mut files, "style", "css", assets.css.as_bytes());
    let svg = add(&mut files, "icon", "svg", &assets.icon_svg);
    let png = add(&mut files, "icon-512", "png", &assets.icon_png);
    let mut demo = Vec::new();
    for card in &assets.demo {
        let stem = format!("{DEMO_PREFIX}{}", card.name);
        let url = add(&mut files, &stem, "card.json", &card.card);
        demo.push(DemoEntry {
            name: card.name.clone(),
            url: Some(url),
            gz: None,
        });
    }
    files.insert("manifest.webmanifest".to_owned(), manifest(&svg, &png));

    let register = web(ws, "register.js")?;
    let start = web(ws, "start-site.js")?
        .replace("%GLUE%", &glue)
        .replace("%WASM%", &wasm);
    let policy = policy(&[&register, &start]);
    let head = format!(
        "<link rel=\"stylesheet\" href=\"{css}\">\n\
         <link rel=\"modulepreload\" href=\"{glue}\">\n\
         <link rel=\"preload\" href=\"{wasm}\" as=\"fetch\" type=\"application/wasm\" crossorigin>\n\
         <link rel=\"icon\" href=\"{svg}\" type=\"image/svg+xml\">\n\
         <link rel=\"apple-touch-icon\" href=\"{png}\">\n\
         <link rel=\"manifest\" href=\"manifest.webmanifest\">"
    );
    let body = [
        demo_block(&demo)?,
        worker_block(WorkerAt::Address(&worker))?,
        inline("script", "", &register)?,
        inline("script", " type=\"module\"", &start)?,
    ];
    let page = Template::read(ws)?.fill(&policy, &head, &body.concat());
    files.insert("index.html".to_owned(), page.into_bytes());

    let keeper = self::worker(&web(ws, "sw.js")?, &files)?;
    files.insert("sw.js".to_owned(), keeper.into_bytes());
    Ok(files)
}

/// Adds a file under a name with a digest in it, and gives that name.
fn add(files: &mut Files, stem: &str, extension: &str, content: &[u8]) -> String {
    let name = format!("{stem}-{}.{extension}", short(&Sha256::digest(content)));
    files.insert(name.clone(), content.to_vec());
    name
}

/// The beginning of a digest, long enough for a name.
fn short(digest: &[u8]) -> String {
    let mut name = String::new();
    for byte in &digest[..6] {
        let _ = write!(name, "{byte:02x}"); // writing to a String cannot fail
    }
    name
}

fn policy(scripts: &[&str]) -> String {
    let digests: Vec<String> = scripts.iter().map(|text| digest_source(text)).collect();
    format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' {}; style-src 'self'; \
         img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; \
         worker-src 'self' blob:; base-uri 'none'; form-action 'none'",
        digests.join(" ")
    )
}

fn manifest(svg: &str, png: &str) -> Vec<u8> {
    let manifest = json!({
        "id": "./",
        "name": "Ringland",
        "short_name": "Ringland",
        "description": "Teardown scorecard for diesel engines",
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#f6f3ea",
        "theme_color": "#1f4e79",
        "icons": [
            {"src": png, "sizes": "512x512", "type": "image/png", "purpose": "any"},
            {"src": png, "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
            {"src": svg, "sizes": "any", "type": "image/svg+xml"},
        ],
    });
    manifest.to_string().into_bytes()
}

/// The worker with its list of files, and a version that changes when any of them does.
fn worker(template: &str, files: &Files) -> Result<String> {
    let mut digest = Sha256::new();
    let mut names = Vec::new();
    for (name, content) in files {
        digest.update(format!("{name}\n{}\n", content.len()));
        digest.update(content);
        // The page is asked for as the folder: some servers redirect `index.html` there, and a
        // redirected answer cannot be given to a navigation.
        names.push(if name == "index.html" {
            "./"
        } else {
            name.as_str()
        });
    }
    let version = short(&digest.finalize());
    Ok(template
        .replace("%VERSION%", &version)
        .replace("%FILES%", &serde_json::to_string(&names)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_workers_version_changes_with_any_file() {
        let worker = |page: &str| {
            let mut files = Files::new();
            files.insert("index.html".to_owned(), page.as_bytes().to_vec());
            add(&mut files, "a", "css", b"b{}");
            super::worker("%VERSION% %FILES%", &files).unwrap()
        };
        assert_ne!(worker("one"), worker("two"));
        assert_eq!(worker("one"), worker("one"));
        assert!(worker("one").contains("[\"a-"));
        assert!(worker("one").ends_with("\"./\"]"));
    }
}
