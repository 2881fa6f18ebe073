//! Help: one page each for how to grade, how to paint areas, what the score means.
//!
//! What stands on a page is made by [`ringland_report::help`].

use leptos::prelude::*;
use ringland_report::help::Topic;

use crate::{app::go, components::act::press, route::Route, store::prefs::use_words};

/// The screen.
#[component]
pub fn HelpPage(
    /// Which page.
    topic: Topic,
) -> impl IntoView {
    let words = use_words();
    let ways = Topic::ALL.into_iter().map(|other| {
        view! {
            <a class="button" href=Route::Help(other).href() aria-current=(other == topic).then_some("page")>
                {other.title(words)}
            </a>
        }
        .into_any()
    });
    view! {
        <article class="help">
            <nav class="help__ways" aria-label=words.help.pages>
                <button type="button" class="button button--soft" on:click=press(back)>{words.common.back}</button>
                {ways.collect_view()}
            </nav>
            <h1>{topic.title(words)}</h1>
            <div class="help__page" inner_html=topic.page(words)></div>
        </article>
    }
}

/// Where one came from; to the Shelf where the page was opened here.
fn back() {
    let history = window().history();
    match history {
        Ok(history) if history.length().is_ok_and(|length| length > 1) => {
            // A browser that does not go back leaves us here, with the bar above to leave by.
            let _went = history.back();
        }
        _ => go(Route::Shelf),
    }
}
