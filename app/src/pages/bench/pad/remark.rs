//! Words about a position.

use leptos::prelude::*;
use ringland_card::{Body, plan::LeafId};

use super::use_bench;
use crate::{
    components::{
        act::{send, text},
        live::live,
    },
    store::{draft, prefs::use_words, use_card},
};

/// The remarks on a position, and one more.
#[component]
pub(super) fn RemarkPad(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let draft = store
        .peek(|open| format!("{}/remark/{}", open.card.id(), leaf.0))
        .unwrap_or_default();
    let draft = StoredValue::new(draft);
    let written = RwSignal::new(
        draft
            .with_value(|name| draft::recall(name))
            .unwrap_or_default(),
    );
    let typed = move |typed: String| {
        draft.with_value(|name| draft::remember(name, &typed));
        written.set(typed);
    };
    let submit = move || {
        let text = written.get_untracked();
        if !text.trim().is_empty() {
            let kept = draft.get_value();
            bench.remark(leaf, text.trim().to_owned(), move || draft::forget(&kept));
        }
    };
    let remarks = move || {
        store
            .whole(|open| {
                let position = open
                    .card
                    .index()
                    .leaf(leaf)?
                    .position(open.card.plan())
                    .id
                    .clone();
                let standing = open.card.standing();
                let here = standing
                    .remarks
                    .iter()
                    .filter_map(|entry| match &entry.body {
                        Body::Remark {
                            about: Some(about),
                            text,
                        } if about.position == position => {
                            Some((entry.rater.clone(), text.clone()))
                        }
                        _ => None,
                    });
                Some(here.collect::<Vec<_>>())
            })
            .flatten()
            .unwrap_or_default()
    };
    view! {
        <h3 class="pad__side">{words.pad.remark}</h3>
        <ul class="remarks">
            {live(move || remarks().into_iter().map(|(who, text)| view! {
                <li><b>{who}</b>" "{text}</li>
            }.into_any()).collect_view())}
        </ul>
        <form class="remark" on:submit=send(submit)>
            <label class="field">
                <span class="field__label">{words.pad.remark_label}</span>
                <textarea class="field__input remark__text" rows="4" maxlength="10000"
                    prop:value=written.get_untracked() on:input=text(typed)></textarea>
            </label>
            <button type="submit" class="button button--act">{words.pad.keep}</button>
        </form>
    }
}
