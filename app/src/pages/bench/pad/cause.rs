//! Why nobody looked, and what is answerable for what was seen.

use leptos::prelude::*;
use ringland_card::{Cause, NotInspected, plan::LeafId};

use super::use_bench;
use crate::{
    components::act::press,
    store::{prefs::use_words, use_card},
};

/// The reasons for not having looked.
#[component]
pub(super) fn NotInspectedPad(leaf: LeafId) -> impl IntoView {
    let (bench, words) = (use_bench(), use_words());
    let whole_row = RwSignal::new(false);
    let rest = bench.open_of_row(leaf).len();
    let reasons = NotInspected::ALL.into_iter().map(|why| {
        view! {
            <button type="button" class="button choice" data-reason=format!("{why:?}")
                on:click=press(move || bench.not_inspected(leaf, why, whole_row.get_untracked()))>
                {words.reason(why)}
            </button>
        }
        .into_any()
    });
    view! {
        <h3 class="pad__side">{words.pad.not_inspected_why}</h3>
        {(rest > 1).then(|| view! {
            <button type="button" class="button choice" aria-pressed=move || whole_row.get().to_string()
                on:click=press(move || whole_row.update(|on| *on = !*on))>
                {words.pad.for_open_of_row(rest)}
            </button>
        }.into_any())}
        <div class="choices" role="group" aria-label=words.pad.not_inspected_why>{reasons.collect_view()}</div>
    }
}

/// The causes.
#[component]
pub(super) fn CausePad(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let whole_position = RwSignal::new(false);
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let causes = Cause::ALL.into_iter().map(|cause| {
        let on = move || store.position(node, |open| open.result.causes[leaf.0] == cause) == Some(true);
        view! {
            <button type="button" class="button choice choice--two" aria-pressed=move || on().to_string()
                data-cause=format!("{cause:?}")
                on:click=press(move || bench.set_cause(leaf, cause, whole_position.get_untracked()))>
                <span>{words.cause(cause)}</span>
                <span class="fine">{words.cause_meaning(cause)}</span>
            </button>
        }
        .into_any()
    });
    view! {
        <h3 class="pad__side">{words.pad.cause_of}</h3>
        <button type="button" class="button choice" aria-pressed=move || whole_position.get().to_string()
            on:click=press(move || whole_position.update(|on| *on = !*on))>
            {words.pad.for_whole_position}
        </button>
        <div class="choices" role="group" aria-label=words.pad.cause_of>{causes.collect_view()}</div>
    }
}
