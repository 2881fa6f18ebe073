//! Builds, serves, checks, measures and tests Ringland: `cargo xtask build | serve | check | bench | test`.
//!
//! | where | what |
//! |---|---|
//! | [`toolchain`] | a compiler that can make wasm: found, added, or built from Debian's sources |
//! | [`bundle`] | the app as wasm and its glue, the same bytes for both editions |
//! | [`assets`] | style, icon, demo engines: what goes in beside the wasm |
//! | [`site`] | the site edition: hashed names, service worker, manifest |
//! | [`single_file`] | the single-file edition, for a stick |
//! | [`page`] | what both pages share: the template, the content security policy, the demo block |
//! | [`size`] | what it all weighs, and the limit |
//! | [`server`] | the static server, for `serve` and for the end-to-end tests |
//! | [`check`] | format, lints, licences, sources, who may know the browser |
//! | [`test`] | every test there is, and the one closing line |
//! | [`browsers`] | the browsers that the tests drive, and their drivers |
//! | [`tools`] | Python packages, the accessibility checker |
//! | [`bench`] | how fast, beside something known |
#![allow(clippy::print_stdout, reason = "a command for a person at a terminal")]

pub mod apt;
pub mod assets;
pub mod bench;
pub mod browsers;
pub mod build;
pub mod bundle;
pub mod check;
pub mod metadata;
pub mod page;
pub mod run;
pub mod serve;
pub mod server;
pub mod single_file;
pub mod site;
pub mod size;
pub mod test;
pub mod toolchain;
pub mod tools;
pub mod workspace;
