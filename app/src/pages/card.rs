//! Card.

use leptos::prelude::*;

/// The screen.
#[component]
pub fn CardPage() -> impl IntoView {
    view! { <p>"Card"</p> }
}
