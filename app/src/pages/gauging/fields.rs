//! The fields: a figure and Enter, the cursor goes where the hand goes next; slips are asked about.

use leptos::{
    ev::{Event, KeyboardEvent},
    html,
    prelude::*,
};
use ringland_card::{SpotId, gauging::Spot, plan::LeafId};
use ringland_report::{
    format::parse_reading,
    gauging::{field_id, found_id},
};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use super::state::{At1, Gauging, Question};
use crate::{
    components::{act::press, live::live},
    platform::focus,
    store::prefs::use_words,
};

/// What says of a field what was last kept of it: it is kept once, by Enter or on leaving it.
const KEPT: &str = "data-kept";
/// Where the boxes stand.
const BOXES: &str = "boxes";

/// The boxes of the kind on the screen.
#[component]
pub(super) fn Boxes(page: Gauging) -> impl IntoView {
    let place = NodeRef::<html::Div>::new();
    Effect::new(move || {
        let boxes = page.boxes();
        if let Some(place) = place.get()
            && page.drawn_ahead.try_update_value(std::mem::take) != Some(true)
        {
            draw(&place, &boxes);
        }
    });
    // What the readings say follows every change, wherever it was made.
    Effect::new(move || {
        let found = page.whole(|gauger| {
            let kind = gauger.kind_of(page.kind.get()?)?;
            let found = kind
                .leaves()
                .map(|leaf| (found_id(leaf), gauger.found(leaf)));
            Some(found.collect::<Vec<_>>())
        });
        for (id, says) in found.flatten().unwrap_or_default() {
            if let Some(place) = document().get_element_by_id(&id) {
                place.set_inner_html(&says);
            }
        }
    });
    let key = move |event: KeyboardEvent| {
        if event.key() == "Enter"
            && !event.ctrl_key()
            && let Some(field) = field_of(event.target())
        {
            event.prevent_default();
            typed(page, &field, true);
        }
    };
    let left = move |event: Event| {
        if let Some(field) = field_of(event.target()) {
            typed(page, &field, false);
        }
    };
    view! {
        <div id=BOXES node_ref=place role="group" aria-labelledby="kind-title" on:keydown=key on:change=left></div>
    }
}

/// What is asked about the last figure, and why one was refused.
#[component]
pub(super) fn Asked(page: Gauging) -> impl IntoView {
    let words = use_words();
    let asked = move || {
        page.question.get().map(|question| {
            let at = question.at.clone();
            let again = move || {
                page.question.set(None);
                focus(&field_id(at.leaf, &at.spot));
            };
            let right = move || {
                let asked = page.question.get_untracked();
                if let Some(field) = asked.and_then(|asked| field(&asked.at)) {
                    typed(page, &field, true);
                }
            };
            view! {
                <div class="asked" role="alert">
                    <p>{question.said}</p>
                    <div class="panel__acts">
                        <button type="button" class="button button--act" id="slip-again" on:click=press(again)>{words.gauging.slip_again}</button>
                        <button type="button" class="button" id="slip-keep" on:click=press(right)>{words.gauging.slip_keep}</button>
                    </div>
                </div>
            }
            .into_any()
        })
    };
    let refused = move || {
        let why = page.refused.get().filter(|why| !why.is_empty())?;
        Some(view! { <p class="pad__refused" role="alert">{why}</p> }.into_any())
    };
    view! { {live(asked)} {live(refused)} }
}

/// Draws the boxes.
fn draw(place: &Element, boxes: &str) {
    place.set_inner_html(boxes);
    for field in fields() {
        let _marked = field.set_attribute(KEPT, &field.value());
    }
}

/// Draws the boxes of another kind and goes to their first field within the key that asked for it: a gauge that
/// types does not wait for the next picture, and what came before it would be lost.
fn draw_ahead(page: Gauging) {
    if let Some(place) = document().get_element_by_id(BOXES) {
        draw(&place, &untrack(|| page.boxes()));
        page.drawn_ahead.set_value(true);
    }
    if let Some(first) = fields().first() {
        let _went = first.focus();
    }
}

fn field_of(target: Option<web_sys::EventTarget>) -> Option<HtmlInputElement> {
    let field = target?.dyn_into::<HtmlInputElement>().ok()?;
    field.has_attribute("data-leaf").then_some(field)
}

fn field(at: &At1) -> Option<HtmlInputElement> {
    let field = document().get_element_by_id(&field_id(at.leaf, &at.spot))?;
    field.dyn_into().ok()
}

/// The fields on the screen in the order of the parts.
fn fields() -> Vec<HtmlInputElement> {
    let Ok(all) = document().query_selector_all("#boxes .gaugebox__read") else {
        return Vec::new();
    };
    (0..all.length())
        .filter_map(|number| all.get(number)?.dyn_into().ok())
        .collect()
}

fn at(field: &Element) -> Option<At1> {
    let step = |name: &str| {
        let id = field.get_attribute(name)?;
        SpotId::new(&id).ok()
    };
    Some(At1 {
        leaf: LeafId(field.get_attribute("data-leaf")?.parse().ok()?),
        spot: Spot {
            station: step("data-station"),
            axis: step("data-axis"),
        },
    })
}

/// A figure was typed: it is kept, asked about or refused; after Enter the hand goes on.
fn typed(page: Gauging, field: &HtmlInputElement, enter: bool) {
    let Some(at) = at(field) else { return };
    let text = field.value();
    let text = text.trim();
    let kept = field.get_attribute(KEPT).unwrap_or_default();
    if text == kept {
        page.question.set(None);
        if enter {
            go_on(page, field);
        }
        return;
    }
    // A second Enter on what was asked about says that it is right.
    let asked = page.question.get_untracked();
    let sure = asked.is_some_and(|asked| asked.at == at && asked.text == text && enter);
    if text.is_empty() {
        page.clear(&at);
    } else {
        let reading = match parse_reading(text) {
            Ok(typed) => page.to_keep(&at, typed),
            Err(error) => Err(use_words().number_error(&error)),
        };
        let reading = match reading {
            Ok(reading) => reading,
            Err(why) => return wrong(page, field, why),
        };
        if !sure && let Some(said) = page.slip_said(at.leaf, &reading) {
            let _marked = field.set_attribute("aria-invalid", "true");
            let text = text.to_owned();
            return page.question.set(Some(Question { at, text, said }));
        }
        page.keep(reading);
    }
    let _marked = field.set_attribute(KEPT, text);
    let _right = field.remove_attribute("aria-invalid");
    page.question.set(None);
    page.refused.set(None);
    if enter {
        go_on(page, field);
    }
}

fn wrong(page: Gauging, field: &HtmlInputElement, why: String) {
    let _marked = field.set_attribute("aria-invalid", "true");
    page.refused.set(Some(why));
    let _stays = field.focus();
}

/// To the next field: of the part, or the same spot on the next part; after the last to the next kind.
fn go_on(page: Gauging, from: &HtmlInputElement) {
    let fields = fields();
    let Some(here) = fields.iter().position(|field| field == from) else {
        return;
    };
    let part = from.get_attribute("data-leaf");
    let same = |field: &&HtmlInputElement| field.get_attribute("data-leaf") == part;
    let spots = fields.iter().filter(same).count().max(1);
    let next = if page.by_row.get_untracked() {
        let along = here + spots;
        if along < fields.len() {
            Some(along)
        } else {
            Some(here % spots + 1).filter(|row| *row < spots)
        }
    } else {
        Some(here + 1)
    };
    if let Some(next) = next.and_then(|next| fields.get(next)) {
        let _went = next.focus();
        next.select();
    } else if let Some(kind) = page.next_kind() {
        page.open(kind);
        draw_ahead(page);
    }
}
