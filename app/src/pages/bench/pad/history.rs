//! Everything ever said of a characteristic in a position: nothing is overwritten.

use leptos::prelude::*;
use ringland_card::{Body, Entry, EntryId, plan::LeafId};
use ringland_report::words::Words;

use super::use_bench;
use crate::{
    components::{
        act::{press, send},
        live::live,
    },
    platform,
    store::{open::Open, prefs::use_words, use_card},
};

/// A line of the history.
#[derive(Clone, Debug, PartialEq)]
struct Line {
    entry: EntryId,
    what: String,
    who: String,
    when: String,
    /// What became of it; empty while it holds.
    became: String,
}

/// The history of a leaf, the latest first.
#[component]
pub(super) fn HistoryPad(leaf: LeafId) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let lines = move || {
        store
            .whole(|open| lines(open, leaf, words))
            .unwrap_or_default()
    };
    view! {
        <h3 class="pad__side">{words.pad.history}</h3>
        {live(move || lines().is_empty().then(|| view! { <p class="mute">{words.pad.no_history}</p> }.into_any()))}
        <ol class="history">
            {live(move || lines().into_iter().map(|line| view! { <HistoryLine line/> }).collect_view())}
        </ol>
    }
}

#[component]
fn HistoryLine(line: Line) -> impl IntoView {
    let (bench, words) = (use_bench(), use_words());
    let asking = RwSignal::new(false);
    let field = NodeRef::<leptos::html::Input>::new();
    let entry = line.entry;
    let holds = line.became.is_empty();
    let void = move || {
        let reason = field
            .get_untracked()
            .map(|field| field.value())
            .unwrap_or_default();
        if !reason.trim().is_empty() {
            bench.void(entry, reason.trim().to_owned());
        }
    };
    view! {
        <li class="history__line" class:history__line--gone=!holds>
            <p><b>{line.what}</b></p>
            <p class="fine">{line.who}" · "{line.when}</p>
            {(!holds).then(|| view! { <p class="fine">{line.became}</p> }.into_any())}
            {holds.then(|| live(move || if asking.get() {
                    view! {
                        <form class="history__void" on:submit=send(void)>
                            <label class="field">
                                <span class="field__label">{words.pad.void_why}</span>
                                <input class="field__input" node_ref=field required maxlength="10000"/>
                            </label>
                            <button type="submit" class="button">{words.pad.void}</button>
                        </form>
                    }.into_any()
                } else {
                    view! {
                        <button type="button" class="button button--quiet" on:click=press(move || asking.set(true))>
                            {words.pad.void_more}
                        </button>
                    }.into_any()
                }))}
        </li>
    }
}

fn lines(open: &Open, leaf: LeafId, words: &Words) -> Vec<Line> {
    let (plan, index) = (open.card.plan(), open.card.index());
    let Some(at) = index.leaf(leaf).map(|leaf| leaf.at(plan)) else {
        return Vec::new();
    };
    let scale = index
        .leaf(leaf)
        .and_then(|leaf| plan.scale(&leaf.characteristic(plan).scale));
    let standing = open.card.standing();
    let voids: Vec<(EntryId, &Entry)> = open
        .card
        .entries()
        .filter_map(|entry| match &entry.body {
            Body::Void { entry: target, .. } => Some((*target, entry)),
            _ => None,
        })
        .collect();
    let mut lines: Vec<Line> = open
        .card
        .entries()
        .filter_map(|entry| {
            let what = match &entry.body {
                Body::Rating { at: here, look } if *here == at => {
                    scale.map(|scale| words.look(look, scale))?
                }
                Body::Cause { about, cause }
                    if about.position == at.position
                        && about
                            .characteristic
                            .as_ref()
                            .is_none_or(|only| *only == at.characteristic) =>
                {
                    words.cause_said(*cause, about.characteristic.is_none())
                }
                _ => return None,
            };
            let void = voids.iter().find(|(target, _)| *target == entry.id);
            let became = match void {
                Some((_, void)) => match &void.body {
                    Body::Void { reason, .. } => {
                        words.pad.voided_by(&void.rater, words.void_reason(reason))
                    }
                    _ => String::new(),
                },
                None if standing.dead.has(entry.id) => words.pad.corrected.to_owned(),
                None => String::new(),
            };
            Some(Line {
                entry: entry.id,
                what,
                who: entry.rater.clone(),
                when: words.date_time(entry.time, platform::offset_minutes()),
                became,
            })
        })
        .collect();
    lines.reverse();
    lines
}
