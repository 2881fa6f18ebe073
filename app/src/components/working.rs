//! Work under way: what it is, how much of it is done, and a way to stop it.

use leptos::prelude::*;

use super::act::press;
use crate::store::prefs::use_words;

/// Shown while it is under way.
#[component]
pub fn Working(
    /// The id of its meter: its own on the page.
    id: &'static str,
    /// What is being done.
    label: &'static str,
    /// How much is done, from 0 to 1.
    share: RwSignal<f64>,
    /// Stops it.
    stop: RwSignal<bool>,
) -> impl IntoView {
    let words = use_words();
    view! {
        <div class="news__progress">
            <label class="news__label" for=id>{label}" "{move || words.numbers.share(share.get())}</label>
            <progress id=id class="meter" max="1" value=move || share.get().to_string()></progress>
            <button type="button" class="button" disabled=move || stop.get()
                on:click=press(move || stop.set(true))>{words.gauging.stop}</button>
        </div>
    }
}
