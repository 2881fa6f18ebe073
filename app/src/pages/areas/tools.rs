//! What the hand marks on the photo: the surface, what is left out of it, and the corners that straighten it.

use leptos::prelude::*;
use ringland_report::words::PhotoAreas;

use super::reading::{Reading, Tool};
use crate::{components::act::press, store::prefs::use_words};

fn name(tool: Tool, words: &PhotoAreas) -> &'static str {
    match tool {
        Tool::Surface => words.region,
        Tool::Outline => words.outline,
        Tool::Brush => words.brush,
        Tool::Straighten => words.straighten,
    }
}

fn hint(tool: Tool, words: &PhotoAreas) -> &'static str {
    match tool {
        Tool::Surface => words.region_hint,
        Tool::Outline => words.outline_hint,
        Tool::Brush => words.brush_hint,
        Tool::Straighten => words.straighten_hint,
    }
}

fn id(tool: Tool) -> &'static str {
    match tool {
        Tool::Surface => "areas-surface",
        Tool::Outline => "areas-outline",
        Tool::Brush => "areas-brush",
        Tool::Straighten => "areas-straighten",
    }
}

/// The tools, and what the one in hand does.
#[component]
pub(super) fn Tools(reading: Reading) -> impl IntoView {
    let words = &use_words().photo_areas;
    let tools = Tool::ALL.map(|tool| {
        view! {
            <button type="button" class="button" id=id(tool)
                aria-pressed=move || (reading.tool.get() == tool).to_string()
                on:click=press(move || reading.take(tool))>{name(tool, words)}</button>
        }
        .into_any()
    });
    view! {
        <div class="viewer__tools" role="group" aria-label=words.tools>{Vec::from(tools)}</div>
        <p class="fine" role="status">{move || hint(reading.tool.get(), words)}</p>
        <div class="viewer__acts">
            <button type="button" class="button" id="areas-whole" on:click=press(move || reading.whole_photo())>{words.whole_photo}</button>
            <button type="button" class="button" id="areas-back-one" on:click=press(move || reading.back_one())>{words.back_one}</button>
        </div>
    }
}
