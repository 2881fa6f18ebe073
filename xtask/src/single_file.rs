//! The single-file edition: all in one page that opens from a stick, with no server.
use anyhow::Result;
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};

use crate::assets::{Assets, web};
use crate::bundle::Bundle;
use crate::page::{DemoEntry, Template, WorkerAt, demo_block, digest_source, inline, worker_block};
use crate::size::gzip;
use crate::workspace::Workspace;

/// The name of the page in `dist/`.
pub const NAME: &str = "ringland.html";

/// Makes the page.
///
/// # Errors
/// When a part of it cannot be read or cannot stand inline.
pub fn page(ws: &Workspace, bundle: &Bundle, assets: &Assets) -> Result<String> {
    let wasm = BASE64.encode(gzip(&bundle.wasm));
    let mut demo = Vec::new();
    for card in &assets.demo {
        let gz = Some(BASE64.encode(gzip(&card.card)));
        demo.push(DemoEntry {
            name: card.name.clone(),
            url: None,
            gz,
        });
    }
    // The glue's text is the site's; inside a module its exports are allowed and harmless.
    let script = format!("{}\n{}", bundle.glue, web(ws, "start-single.js")?);
    let icon = BASE64.encode(&assets.icon_svg);
    let policy = format!(
        "default-src 'none'; script-src 'wasm-unsafe-eval' {}; style-src {}; \
         img-src data: blob:; connect-src 'none'; worker-src blob:; \
         base-uri 'none'; form-action 'none'",
        digest_source(&script),
        digest_source(&assets.css),
    );
    let head = format!(
        "<link rel=\"icon\" href=\"data:image/svg+xml;base64,{icon}\">\n{}",
        inline("style", "", &assets.css)?
    );
    let body = [
        demo_block(&demo)?,
        worker_block(WorkerAt::Here(&bundle.worker))?,
        inline("script", " type=\"application/gzip\" id=\"wasm\"", &wasm)?,
        inline("script", " type=\"module\"", &script)?,
    ];
    Ok(Template::read(ws)?.fill(&policy, &head, &body.concat()))
}
