//! Installing the page on the tablet, where the browser offers it; the page's own script keeps the offer.

use leptos::{ev::Custom, prelude::*};
use web_sys::CustomEvent;

use crate::{
    components::{act::press, live::live},
    store::prefs::use_words,
};

/// The offer; nothing where the browser makes none.
#[component]
pub fn Install() -> impl IntoView {
    let words = use_words();
    let ready = RwSignal::new(is_ready());
    let changed =
        window_event_listener(Custom::<CustomEvent>::new("ringland-install"), move |_| {
            ready.set(is_ready());
        });
    on_cleanup(move || changed.remove());
    let install = || {
        if let Ok(now) = CustomEvent::new("ringland-install-now") {
            let _told = window().dispatch_event(&now);
        }
    };
    live(move || {
        ready.get().then(|| {
            view! {
                <section class="panel install">
                    <h2 class="panel__title">{words.shelf.install}</h2>
                    <p class="fine">{words.shelf.install_hint}</p>
                    <button type="button" class="button" on:click=press(install)>{words.shelf.install_now}</button>
                </section>
            }
            .into_any()
        })
    })
}

fn is_ready() -> bool {
    document()
        .document_element()
        .is_some_and(|root| root.get_attribute("data-install").is_some())
}
