//! Ringland in the browser: screens over the pure core. It holds no maths and no words.
//!
//! | room | what is in it |
//! |---|---|
//! | [`store`] | the open card behind one door, the Shelf, settings |
//! | [`persist`] | the database, files in and out, demo engines |
//! | [`pages`] | a folder for each screen |
//! | [`components`] | pieces that more than one screen uses |
//! | [`beside`] | the worker beside the page |
//! | [`platform`] | clock, random bytes, ids |
//! | [`order`] | short lists put in order |
//! | [`slices`] | long work done a little at a time |

#![allow(
    clippy::needless_pass_by_value,
    clippy::large_types_passed_by_value,
    unreachable_pub,
    reason = "components take their props by value, and their macro makes public items in private modules"
)]

pub mod app;
pub mod beside;
pub mod components;
pub mod order;
pub mod pages;
pub mod persist;
pub mod platform;
pub mod route;
pub mod slices;
pub mod store;

/// Starts the app in the page.
pub fn start() {
    std::panic::set_hook(Box::new(|_| broken()));
    leptos::mount::mount_to_body(app::App);
}

/// Says that the program has stopped: a screen that only ceases to answer would be worse. What was
/// kept is on disk by then.
fn broken() {
    let page = leptos::prelude::document();
    let (Some(body), Ok(said)) = (page.body(), page.create_element("p")) else {
        return;
    };
    said.set_class_name("trouble broken");
    said.set_text_content(Some(store::prefs::use_words().common.broken));
    let _spoken = said.set_attribute("role", "alert");
    let _shown = body.prepend_with_node_1(&said);
}
