//! What goes into both editions beside the wasm: style, icon, demo engines.
use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, ensure};

use crate::page::read_text;
use crate::workspace::Workspace;

/// Everything that is taken from the checkout as it is.
#[derive(Debug, Clone)]
pub struct Assets {
    /// All style sheets as one.
    pub css: String,
    /// The icon for browsers.
    pub icon_svg: Vec<u8>,
    /// The icon for home screens.
    pub icon_png: Vec<u8>,
    /// The demo engines, in name order.
    pub demo: Vec<Demo>,
}

/// A demo engine.
#[derive(Debug, Clone)]
pub struct Demo {
    /// The file's name without `.card.json`.
    pub name: String,
    /// The card file.
    pub card: Vec<u8>,
}

impl Assets {
    /// Reads them.
    ///
    /// # Errors
    /// When a file cannot be read, or a style sheet loads another file.
    pub fn read(ws: &Workspace) -> Result<Self> {
        Ok(Self {
            css: css(ws)?,
            icon_svg: read(ws, "app/web/icon.svg")?,
            icon_png: read(ws, "app/web/icon-512.png")?,
            demo: demo(ws)?,
        })
    }
}

/// The style sheets of the app: `tokens.css` first, the others by name. Those that a page handed over needs
/// too stand with what writes it.
///
/// # Errors
/// When the folder cannot be read.
pub fn style_sheets(ws: &Workspace) -> Result<Vec<PathBuf>> {
    let mut sheets = files_ending(ws, "app/style", ".css")?;
    sheets.extend(files_ending(ws, "crates/report/style", ".css")?);
    sheets.retain(|path| !path.ends_with("handover.css"));
    sheets.sort_by_key(|path| {
        let name = path.file_name().map(ToOwned::to_owned);
        (!path.ends_with("tokens.css"), name)
    });
    Ok(sheets)
}

fn css(ws: &Workspace) -> Result<String> {
    let mut css = String::new();
    for sheet in style_sheets(ws)? {
        let text = fs::read_to_string(&sheet)
            .with_context(|| format!("reading {}", sheet.display()))?
            .replace("\r\n", "\n");
        // Another file would have no hashed name on the site and no place in the single file.
        let outside = text.contains("@import")
            || text.split("url(").skip(1).any(|at| {
                let at = at.trim_start_matches(['"', '\'']);
                !at.starts_with("data:") && !at.starts_with('#')
            });
        ensure!(!outside, "{} loads another file", sheet.display());
        css.push_str(&without_comments(&text));
    }
    Ok(css)
}

/// A style sheet without its comments, which are for readers of the source.
pub fn without_comments(css: &str) -> String {
    let mut kept = String::with_capacity(css.len());
    let mut rest = css;
    while let Some((before, after)) = rest.split_once("/*") {
        kept.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    kept
}

fn demo(ws: &Workspace) -> Result<Vec<Demo>> {
    let mut demo = Vec::new();
    for path in files_ending(ws, "demo-data", ".card.json")? {
        let file = path.file_name().unwrap_or_default().to_string_lossy();
        let name = file.trim_end_matches(".card.json").to_owned();
        let card = fs::read(&path).with_context(|| format!("reading {}", path.display()))?;
        demo.push(Demo { name, card });
    }
    Ok(demo)
}

/// Files in a folder of the checkout by the end of their names, sorted; none where it is missing.
fn files_ending(ws: &Workspace, folder: &str, end: &str) -> Result<Vec<PathBuf>> {
    let folder = ws.path(folder);
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(&folder).with_context(|| format!("reading {}", folder.display()))? {
        let path = entry?.path();
        if path.to_string_lossy().ends_with(end) {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

fn read(ws: &Workspace, relative: &str) -> Result<Vec<u8>> {
    let path = ws.path(relative);
    fs::read(&path).with_context(|| format!("reading {}", path.display()))
}

/// Reads a file of `app/web`, where the parts of the page lie that are no Rust.
///
/// # Errors
/// When it cannot be read.
pub fn web(ws: &Workspace, name: &str) -> Result<String> {
    read_text(ws, &format!("app/web/{name}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_go_and_the_rest_stays() {
        assert_eq!(without_comments("a{}/* b{} */c{}/* open"), "a{}c{}");
    }
}
