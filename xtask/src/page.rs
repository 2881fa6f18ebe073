//! What the pages of both editions share.
//!
//! # The demo block
//! The app embeds no demo engines; it finds them in its page:
//! ```html
//! <script type="application/json" id="demo">[{"name": "…", …}, …]</script>
//! ```
//! One object for each `demo-data/NAME.card.json`, in name order, with `name` and one of
//! - `url` (site): where the card lies, relative to the page; the service worker keeps it;
//! - `gz` (single file): the card itself, base64 of gzip.
//!
//! # The worker
//! What runs beside the page is found in it too, in an element that no browser runs by itself:
//! ```html
//! <script type="text/plain" id="worker" data-at="…">…</script>
//! ```
//! with its address (site), or with its text (single file).
use std::fs;

use anyhow::{Context, Result, ensure};
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::workspace::Workspace;

/// `index.html` of the checkout, with its three gaps.
#[derive(Debug, Clone)]
pub struct Template(String);

impl Template {
    /// Reads it.
    ///
    /// # Errors
    /// When it is missing or lacks a gap.
    pub fn read(ws: &Workspace) -> Result<Self> {
        let text = read_text(ws, "index.html")?;
        for gap in ["<!--policy-->", "<!--head-->", "<!--body-->"] {
            ensure!(
                text.matches(gap).count() == 1,
                "index.html must have {gap} once"
            );
        }
        Ok(Self(text))
    }

    /// The page with its gaps filled.
    pub fn fill(&self, policy: &str, head: &str, body: &str) -> String {
        let policy = format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">");
        // In this order nothing that was filled in is searched for a gap again.
        let (start, rest) = split(&self.0, "<!--policy-->");
        let (middle, rest) = split(rest, "<!--head-->");
        let (late, end) = split(rest, "<!--body-->");
        [start, &policy, middle, head, late, body, end].concat()
    }
}

fn split<'a>(text: &'a str, gap: &str) -> (&'a str, &'a str) {
    text.split_once(gap).unwrap_or((text, ""))
}

/// Reads a text file of the checkout, lines ending as a browser sees them: digests in the content
/// security policy are over that text.
///
/// # Errors
/// When it cannot be read.
pub fn read_text(ws: &Workspace, relative: &str) -> Result<String> {
    let path = ws.path(relative);
    let text = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
    Ok(text.replace("\r\n", "\n"))
}

/// A source of the content security policy that allows exactly this inline text.
pub fn digest_source(text: &str) -> String {
    format!("'sha256-{}'", BASE64.encode(Sha256::digest(text)))
}

/// An inline script or style, refused where the page's parser would see another end than we do.
///
/// # Errors
/// When the text holds what ends or nests such an element.
pub fn inline(element: &str, attributes: &str, text: &str) -> Result<String> {
    let lower = text.to_ascii_lowercase();
    for stop in [
        format!("</{element}"),
        "<!--".to_owned(),
        "<script".to_owned(),
    ] {
        ensure!(
            !lower.contains(&stop),
            "an inline {element} may not contain `{stop}`"
        );
    }
    Ok(format!("<{element}{attributes}>{text}</{element}>\n"))
}

/// A demo engine as the page lists it; see the [module](self).
#[derive(Debug, Serialize)]
pub struct DemoEntry {
    /// The file's name without `.card.json`.
    pub name: String,
    /// Where it lies (site).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub url: Option<String>,
    /// The card itself, base64 of gzip (single file).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gz: Option<String>,
}

/// The element that lists the demo engines.
///
/// # Errors
/// Never for these types; serde's signature says it may.
pub fn demo_block(demo: &[DemoEntry]) -> Result<String> {
    // A name may hold anything a file name may.
    let json = serde_json::to_string(demo)?.replace('<', "\\u003c");
    inline("script", " type=\"application/json\" id=\"demo\"", &json)
}

/// Where the script of the worker is found; see the [module](self).
#[derive(Debug, Clone, Copy)]
pub enum WorkerAt<'a> {
    /// In a file of this name.
    Address(&'a str),
    /// In the page.
    Here(&'a str),
}

/// The element that the app finds the worker by.
///
/// # Errors
/// When the text holds what ends or nests such an element.
pub fn worker_block(at: WorkerAt<'_>) -> Result<String> {
    let (address, text) = match at {
        WorkerAt::Address(name) => (format!(" data-at=\"{name}\""), ""),
        WorkerAt::Here(text) => (String::new(), text),
    };
    inline(
        "script",
        &format!(" type=\"text/plain\" id=\"worker\"{address}"),
        text,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_is_the_one_browsers_compute() {
        // The example of the W3C's Content Security Policy Level 2, section 7.17.
        let source = digest_source("alert('Hello, world.');");
        assert_eq!(
            source,
            "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
        );
    }

    #[test]
    fn a_script_cannot_end_early() {
        assert!(inline("script", "", "let a = '</SCRIPT>'").is_err());
        assert!(inline("style", "", "a::after{content:'</style'}").is_err());
        assert_eq!(
            inline("script", "", "a < b").unwrap(),
            "<script>a < b</script>\n"
        );
    }

    #[test]
    fn a_name_cannot_leave_the_demo_block() {
        let name = "</script>".to_owned();
        let block = demo_block(&[DemoEntry {
            name,
            url: None,
            gz: Some("x".to_owned()),
        }])
        .unwrap();
        assert_eq!(
            block,
            "<script type=\"application/json\" id=\"demo\">\
             [{\"name\":\"\\u003c/script>\",\"gz\":\"x\"}]</script>\n"
        );
    }
}
