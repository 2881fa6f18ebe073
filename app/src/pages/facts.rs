//! Facts.

use leptos::prelude::*;

/// The screen.
#[component]
pub fn FactsPage() -> impl IntoView {
    view! { <p>"Facts"</p> }
}
