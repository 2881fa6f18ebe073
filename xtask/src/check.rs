//! `cargo xtask check`: what must hold of the sources before anything is run.
use std::fs;

use anyhow::{Context, Result, bail, ensure};

use crate::apt;
use crate::assets::{style_sheets, without_comments};
use crate::metadata::{Metadata, Package};
use crate::run::{cargo, output, run, say};
use crate::toolchain::Wasm;
use crate::workspace::Workspace;

/// The licences under which others' work may go into Ringland or its tests.
const LICENCES: [&str; 11] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Where packages may come from.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// The packages of the core, which know no browser.
const CORE: [&str; 4] = [
    "ringland-card",
    "ringland-stats",
    "ringland-assess",
    "ringland-report",
];

/// Names, and beginnings of names, of packages that do know one.
const BROWSER: [&str; 6] = ["web-sys", "js-sys", "wasm-bindgen", "leptos", "gloo", "idb"];

/// Runs every check and tells all that does not hold, not only the first.
///
/// # Errors
/// With everything that does not hold.
pub fn check(ws: &Workspace) -> Result<()> {
    say("licences and sources of dependencies, who knows the browser, where colours stand");
    let metadata = Metadata::read(ws)?;
    let mut wrong: Vec<String> = metadata.packages.iter().flat_map(wrong_with).collect();
    wrong.extend(stray_colours(ws)?);
    host_tools(ws)?;
    for outcome in [format(ws), lint_here(ws), lint_for_browser(ws)] {
        wrong.extend(outcome.err().map(|error| format!("{error:#}")));
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

fn format(ws: &Workspace) -> Result<()> {
    run(
        "format (cargo fmt --all --check)",
        cargo()
            .current_dir(ws.root())
            .args(["fmt", "--all", "--check"]),
    )
}

fn lint_here(ws: &Workspace) -> Result<()> {
    run(
        "lints of everything on this machine (clippy, warnings denied)",
        cargo()
            .current_dir(ws.root())
            // The app runs in browsers only, and is linted for them below.
            .args([
                "clippy",
                "--quiet",
                "--workspace",
                "--exclude",
                "ringland-app",
            ])
            .args(["--all-targets"])
            .args(["--all-features", "--", "-D", "warnings"]),
    )
}

fn lint_for_browser(ws: &Workspace) -> Result<()> {
    let wasm = Wasm::ensure(ws)?;
    if wasm.is_debian() {
        apt::ensure("lints for the browser", &["rust-web-clippy"])?;
    }
    run(
        "lints of the app for the browser (clippy, warnings denied)",
        wasm.cargo(ws, "clippy")
            .args(["--quiet", "--no-deps", "-p", "ringland-app"])
            .args(["--all-targets", "--", "-D", "warnings"]),
    )
}

/// Colours that stand outside `tokens.css`, where light and dark are decided together, and
/// `pictures.css`, which `ringland-report` writes.
fn stray_colours(ws: &Workspace) -> Result<Vec<String>> {
    let mut stray = Vec::new();
    for sheet in style_sheets(ws)? {
        if sheet.ends_with("tokens.css") || sheet.ends_with("pictures.css") {
            continue;
        }
        let text =
            fs::read_to_string(&sheet).with_context(|| format!("reading {}", sheet.display()))?;
        for colour in colours(&without_comments(&text)) {
            stray.push(format!(
                "{}: the colour `{colour}` belongs into tokens.css",
                sheet.display()
            ));
        }
    }
    Ok(stray)
}

/// Format and lints for the Rust that runs this.
fn host_tools(ws: &Workspace) -> Result<()> {
    for (tool, component, package) in [
        ("fmt", "rustfmt", "rustfmt-web"),
        ("clippy", "clippy", "rust-web-clippy"),
    ] {
        let there = || output(cargo().current_dir(ws.root()).args([tool, "--version"])).is_ok();
        if there() {
            continue;
        }
        if std::env::var_os("RUSTUP_TOOLCHAIN").is_some() {
            run(
                &format!("{component} for the active Rust"),
                std::process::Command::new("rustup").args(["component", "add", component]),
            )?;
        } else {
            apt::ensure(component, &[package])?;
        }
        if !there() {
            bail!("cargo {tool} does not run. By hand: rustup component add {component}");
        }
    }
    Ok(())
}

/// What is wrong with a package, in the words of the person who has to mend it.
fn wrong_with(package: &Package) -> Vec<String> {
    let mut wrong = Vec::new();
    if let Some(source) = &package.source {
        if source != REGISTRY {
            wrong.push(format!(
                "{} comes from {source}, not from crates.io",
                package.name
            ));
        }
        if let Err(error) = licence(package) {
            wrong.push(format!("{} {}: {error:#}", package.name, package.version));
        }
    } else if CORE.contains(&package.name.as_str()) {
        let ordinary = package.dependencies.iter().filter(|d| d.kind.is_none());
        wrong.extend(
            ordinary
                .filter(|d| BROWSER.iter().any(|name| d.name.starts_with(name)))
                .map(|d| {
                    format!(
                        "{} depends on {}: the core knows no browser",
                        package.name, d.name
                    )
                }),
        );
    }
    wrong
}

fn licence(package: &Package) -> Result<()> {
    let text = package.license.as_deref().context("says no licence")?;
    let expression = spdx::Expression::parse_mode(text, spdx::ParseMode::LAX)
        .with_context(|| format!("its licence `{text}` is not understood"))?;
    ensure!(
        expression.evaluate(|asked| asked
            .license
            .id()
            .is_some_and(|id| LICENCES.contains(&id.name))),
        "its licence `{text}` is not among those allowed ({})",
        LICENCES.join(", ")
    );
    Ok(())
}

/// Colours written out in the declarations of a style sheet; `#add` as a selector is none.
fn colours(css: &str) -> Vec<&str> {
    const FUNCTIONS: [&str; 9] = [
        "rgb(", "rgba(", "hsl(", "hsla(", "hwb(", "lab(", "lch(", "oklab(", "oklch(",
    ];
    let mut found = Vec::new();
    let mut rest = css;
    while let Some(end) = rest.find(['{', '}', ';']) {
        let (part, after) = rest.split_at(end);
        if !after.starts_with('{')
            && let Some((_, value)) = part.split_once(':')
        {
            let word_ends = |c: char| c.is_whitespace() || c == ',' || c == ')';
            found.extend(value.split(word_ends).filter(|word| {
                // `var(--x,#fff` and `linear-gradient(#fff` hide a colour behind a bracket;
                // `url(#abc)` is a drawing's own part.
                let last = word.rsplit('(').next().unwrap_or(word);
                (is_hex(last) && !word.starts_with("url("))
                    || FUNCTIONS.iter().any(|name| word.contains(name))
            }));
        }
        rest = &after[1..];
    }
    found
}

fn is_hex(word: &str) -> bool {
    word.strip_prefix('#').is_some_and(|digits| {
        matches!(digits.len(), 3 | 4 | 6 | 8) && digits.chars().all(|c| c.is_ascii_hexdigit())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::metadata::Dependency;

    fn package(name: &str, license: &str, source: Option<&str>, asks: &[&str]) -> Package {
        Package {
            name: name.to_owned(),
            version: "1.0.0".to_owned(),
            license: Some(license.to_owned()),
            source: source.map(str::to_owned),
            manifest_path: "Cargo.toml".into(),
            dependencies: asks
                .iter()
                .map(|name| Dependency {
                    name: (*name).to_owned(),
                    kind: None,
                })
                .collect(),
        }
    }

    #[test]
    fn licences_and_sources() {
        let wrong = |licence, source| wrong_with(&package("x", licence, Some(source), &[])).len();
        for fine in [
            "MIT",
            "MIT/Apache-2.0",
            "GPL-3.0 OR MIT",
            "(MIT OR ISC) AND Unicode-3.0",
        ] {
            assert_eq!(wrong(fine, REGISTRY), 0, "{fine}");
        }
        for bad in ["GPL-3.0", "MIT AND AGPL-3.0", "who knows"] {
            assert_eq!(wrong(bad, REGISTRY), 1, "{bad}");
        }
        assert_eq!(wrong("MIT", "git+https://example.org/x"), 1);
    }

    #[test]
    fn the_core_knows_no_browser() {
        let wrong = |name, asks| wrong_with(&package(name, "MIT", None, asks)).len();
        assert_eq!(wrong("ringland-card", &["serde", "gloo-storage"]), 1);
        assert_eq!(wrong("ringland-app", &["web-sys"]), 0);
    }

    #[test]
    fn colours_are_found_in_declarations_only() {
        let css = "#add:hover{color:var(--ink);fill:url(#abc)}\
                   @media(x){a{border:1px solid #1f4e79;background:rgb(1 2 3)}}\
                   b{background:linear-gradient(#fff,var(--x))}";
        assert_eq!(colours(css), ["#1f4e79", "rgb(1", "linear-gradient(#fff"]);
    }
}
