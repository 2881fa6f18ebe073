//! Pads of a figure: percent with drawn areas to hold it against, and counts.

use leptos::prelude::*;
use ringland_card::{Look, plan::LeafId};
use ringland_report::{
    format::{parse_count, parse_number},
    swatch::{self, Patches},
};

use super::{keep, use_bench};
use crate::{
    components::{
        act::{press, send},
        live::live,
    },
    store::{prefs::use_words, use_card},
};

/// The percentages offered; those with a drawn area among them are the trade's comparison steps.
const PERCENTS: [u8; 12] = [0, 1, 2, 5, 10, 15, 20, 30, 50, 65, 80, 100];
/// The counts offered.
const COUNTS: [i64; 12] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 15, 20];

/// Percent of area or length.
#[component]
pub(super) fn ExtentPad(leaf: LeafId) -> impl IntoView {
    let (bench, store) = (use_bench(), use_card());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let mine = move || {
        let _changed = store.position(node, |_| ());
        match bench.mine(leaf)?.1 {
            Look::Percent(percent) => Some(percent),
            _ => None,
        }
    };
    let buttons = PERCENTS.into_iter().map(|percent| {
        let look = f64::from(percent);
        let on = move || mine() == Some(look);
        let picture = swatch::area(percent, Patches::Scattered, None).map(|picture| {
            view! { <span class="figures__swatch" aria-hidden="true" inner_html=picture></span> }.into_any()
        });
        view! {
            <button type="button" class="figures__one num" aria-pressed=move || on().to_string()
                data-percent=percent.to_string()
                on:click=press(move || keep(bench, leaf, Look::Percent(look)))>
                {picture}
                <span>{format!("{percent} %")}</span>
            </button>
        }
        .into_any()
    });
    view! {
        <div class="figures" role="group" aria-labelledby="pad-title">{buttons.collect_view()}</div>
        <Typed leaf parse=percent shown=percent_said/>
    }
}

/// A count.
#[component]
pub(super) fn CountPad(leaf: LeafId) -> impl IntoView {
    let (bench, store) = (use_bench(), use_card());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let mine = move || {
        let _changed = store.position(node, |_| ());
        match bench.mine(leaf)?.1 {
            Look::Count(count) => Some(count),
            _ => None,
        }
    };
    let buttons = COUNTS.into_iter().map(|count| {
        let on = move || mine() == Some(count);
        view! {
            <button type="button" class="figures__one figures__one--count num" aria-pressed=move || on().to_string()
                data-count=count.to_string()
                on:click=press(move || keep(bench, leaf, Look::Count(count)))>
                {count.to_string()}
            </button>
        }
        .into_any()
    });
    view! {
        <div class="figures" role="group" aria-labelledby="pad-title">{buttons.collect_view()}</div>
        <Typed leaf parse=count shown=count_said/>
    }
}

fn percent(text: &str) -> Option<Look> {
    parse_number(text).ok().map(Look::Percent)
}

fn percent_said(look: &Look) -> Option<String> {
    match look {
        Look::Percent(percent) => Some(use_words().numbers.plain(*percent)),
        _ => None,
    }
}

fn count(text: &str) -> Option<Look> {
    parse_count(text).ok().map(Look::Count)
}

fn count_said(look: &Look) -> Option<String> {
    match look {
        Look::Count(count) => Some(count.to_string()),
        _ => None,
    }
}

/// A figure typed; digits typed anywhere on the page land here.
#[component]
fn Typed(
    leaf: LeafId,
    parse: fn(&str) -> Option<Look>,
    shown: fn(&Look) -> Option<String>,
) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let mine = move || {
        let _changed = store.position(node, |_| ());
        shown(&bench.mine(leaf)?.1)
    };
    let wrong = RwSignal::new(false);
    let field = NodeRef::<leptos::html::Input>::new();
    let submit = move || {
        let Some(field) = field.get_untracked() else {
            return;
        };
        match parse(&field.value()) {
            Some(look) => {
                wrong.set(false);
                // The figure goes with the leaf: a field left full would be read as the next one's.
                field.set_value("");
                let _left = field.blur();
                keep(bench, leaf, look);
            }
            None => wrong.set(true),
        }
    };
    view! {
        <form class="typed" on:submit=send(submit)>
            <label class="field">
                <span class="field__label">{words.pad.type_figure}</span>
                <input id="typed" data-figure class="field__input num" inputmode="decimal" autocomplete="off"
                    node_ref=field placeholder=move || mine().unwrap_or_default()
                    aria-invalid=move || wrong.get().to_string()/>
            </label>
            <button type="submit" class="button button--act">{words.pad.keep}</button>
        </form>
        {live(move || wrong.get().then(|| view! { <p class="field__wrong" role="alert">{words.pad.not_a_figure}</p> }.into_any()))}
    }
}
