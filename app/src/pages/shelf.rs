//! Shelf.

use leptos::prelude::*;

/// The screen.
#[component]
pub fn ShelfPage() -> impl IntoView {
    view! { <p>"Shelf"</p> }
}
