//! A new version of the program: it says that it is there, and waits.

use leptos::{ev::Custom, prelude::*};
use web_sys::CustomEvent;

use super::{act::press, live::live};
use crate::{
    platform,
    store::{prefs::use_words, use_card},
};

/// The bar that says so, on every screen until the person changes to it.
#[component]
pub fn UpdateBar() -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let ready = RwSignal::new(platform::update_is_ready());
    // For as long as the page is open.
    let _listening = window_event_listener(
        Custom::<CustomEvent>::new("ringland-update-ready"),
        move |_| ready.set(true),
    );
    // What is still being kept is kept first.
    let now = move || store.after(|| async { platform::tell_page("ringland-update-now") });
    view! {
        <div role="status">
            {live(move || ready.get().then(|| view! {
                <div class="update">
                    <p class="update__said"><b>{words.common.update_ready}</b>" "<span>{words.safe.update_hint}</span></p>
                    <button type="button" class="button" id="update-now" on:click=press(now)>{words.common.update_now}</button>
                </div>
            }.into_any()))}
        </div>
    }
}
