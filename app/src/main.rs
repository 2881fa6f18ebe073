//! The Ringland app in the browser.

fn main() {
    ringland_app::start();
}
