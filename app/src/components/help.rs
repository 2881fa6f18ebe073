//! The way to a help page, where its subject is at hand.

use leptos::{ev::MouseEvent, prelude::*};
use ringland_report::help::Topic;
use wasm_bindgen::JsValue;

use crate::{route::Route, store::prefs::use_words};

/// A link to a help page.
#[component]
pub fn HelpLink(
    /// Which page.
    topic: Topic,
    /// The address to come back to, where that of the screen does not say enough.
    #[prop(optional)]
    from: Option<String>,
) -> impl IntoView {
    let words = use_words();
    let leave = move |_: MouseEvent| {
        if let (Some(from), Ok(history)) = (&from, window().history()) {
            // A browser that does not take it comes back to the screen as its address has it.
            let _noted = history.replace_state_with_url(&JsValue::NULL, "", Some(from));
        }
    };
    view! { <a class="help-link" href=Route::Help(topic).href() on:click=leave>{topic.title(words)}</a> }
}
