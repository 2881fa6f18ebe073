//! New.

use leptos::prelude::*;

/// The screen.
#[component]
pub fn NewEnginePage() -> impl IntoView {
    view! { <p>"New"</p> }
}
