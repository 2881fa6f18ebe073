//! End to end in a real browser: the main journey and what must hold on every screen.
//!
//! `cargo xtask test` builds the site, finds the browsers and sets `RINGLAND_DIST`, `RINGLAND_AXE` and,
//! for each browser, its own and its driver's name. Without them there is nothing to look at, and the tests say so.

mod bench;
mod blind;
mod browser;
mod engines;
mod gauging;
mod handover;
mod large;
mod merging;
mod photo_areas;
mod photo_figures;
mod photos;
mod plan_backups;
mod plan_rules;
mod plan_sizes;
mod plans;
mod safe;
mod screens;
mod seals;
mod smoke;
mod spanish;
mod speed;
mod states;
mod texts;

use std::path::PathBuf;

use xtask::server::Server;

/// The built site.
pub(crate) fn dist() -> PathBuf {
    let dist = std::env::var("RINGLAND_DIST")
        .expect("RINGLAND_DIST: run these with `cargo xtask test suite`");
    PathBuf::from(dist)
}

/// The site, served.
pub(crate) fn serve() -> Server {
    Server::start(&dist()).expect("the site is served")
}
