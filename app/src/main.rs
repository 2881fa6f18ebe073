//! The Ringland app in the browser.
use leptos::prelude::*;

fn main() {
    leptos::mount::mount_to_body(|| view! { <p>"Ringland"</p> });
}
