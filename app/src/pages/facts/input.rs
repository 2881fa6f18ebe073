//! One fact to be typed: a text, or a figure with its unit.

use leptos::{ev::KeyboardEvent, prelude::*};
use ringland_card::FactField;
use ringland_report::format::{DistanceUnit, VolumeUnit};

use super::{
    fields::{self, Kind},
    form::FactsForm,
};
use crate::{
    components::{
        act,
        choice::{Choice, Offer, place},
        live::live,
    },
    order::by_key,
    platform::focus,
    store::{prefs::use_words, summary::Summary, use_prefs},
};

/// The longest text of most fields; a reason may run on.
const LONGEST: &str = "200";

/// The sign of the hour, the same in every language.
const HOUR: &str = "h";

/// The field with its label, its unit, and one line below: what is wrong, how a figure was
/// understood, or what belongs here.
#[component]
pub fn FactInput(
    /// The form that it is in.
    form: FactsForm,
    /// Which fact.
    field: FactField,
) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let (label, hint) = (words.fact_name(field), words.fact_hint(field));
    let (id, text, kind) = (fields::id(field), form.text(field), fields::kind(field));
    let said_id = format!("{id}-said");
    let left = RwSignal::new(false);
    let read = move || fields::read(field, &text.get(), prefs.units());
    let wrong = move || match read() {
        Err(error) if left.get() || form.checked() => Some(words.number_error(&error)),
        _ => None,
    };
    // A figure that reads as it was typed needs no saying.
    let understood = move || match (kind, read()) {
        (Kind::Text, _) | (_, Err(_) | Ok(None)) => None,
        (_, Ok(Some(fact))) => {
            let value = words.fact_value(&fact, prefs.units());
            let as_typed = text.with(|text| text.trim() == value);
            (!as_typed).then(|| words.facts.understood(&value))
        }
    };
    let said = move || {
        wrong()
            .or_else(understood)
            .unwrap_or_else(|| hint.to_owned())
    };
    let typed = move |given| {
        left.set(false);
        form.typed(field, given);
    };
    let mode = if kind == Kind::Text {
        "text"
    } else {
        "decimal"
    };
    view! {
        <div class="field fact" class:fact--figure=kind != Kind::Text>
            <label class="field__label" for=id>{label}</label>
            <div class="fact__row">
                <input id=id class="field__input num" inputmode=mode maxlength=LONGEST autocomplete="off"
                    list=suggestions(field) aria-describedby=said_id.clone()
                    aria-invalid=move || wrong().is_some().then_some("true")
                    prop:value=move || text.get() on:input=act::text(typed) on:change=act::text(move |_| left.set(true))
                    on:keydown=move |event| go_on(&event, field)/>
                <Unit field kind/>
            </div>
            <p class="fact__said" class:field__wrong=move || wrong().is_some() id=said_id>{live(said)}</p>
        </div>
    }
}

/// The unit that a bare figure is in. It is the tablet's setting, so every field follows.
#[component]
fn Unit(field: FactField, kind: Kind) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let name = format!("{}-unit", fields::id(field));
    let label = format!("{}, {}", words.fact_name(field), words.units.title);
    match kind {
        Kind::Text => ().into_any(),
        Kind::Hours => view! { <span class="fact__unit">{HOUR}</span> }.into_any(),
        Kind::Distance => {
            let all = DistanceUnit::ALL;
            let offers = all.map(|unit| Offer::plain(unit.symbol())).into();
            let chosen = Signal::derive(move || place(&all, &prefs.units().distance));
            let choose = Callback::new(move |place: usize| {
                let mut units = prefs.units();
                units.distance = all[place];
                prefs.set_units(units);
            });
            view! { <Choice label name offers chosen choose quiet=true/> }.into_any()
        }
        Kind::Volume(_) => {
            let all = VolumeUnit::ALL;
            let offers = all.map(|unit| Offer::plain(unit.symbol())).into();
            let chosen = Signal::derive(move || place(&all, &prefs.units().volume));
            let choose = Callback::new(move |place: usize| {
                let mut units = prefs.units();
                units.volume = all[place];
                prefs.set_units(units);
            });
            view! { <Choice label name offers chosen choose quiet=true/> }.into_any()
        }
    }
}

/// Enter goes on to the next field, as it does at a gauge: it does not send half a form off.
fn go_on(event: &KeyboardEvent, field: FactField) {
    if event.key() != "Enter" || event.ctrl_key() || event.meta_key() {
        return;
    }
    event.prevent_default();
    let next = fields::all().skip_while(|one| *one != field).nth(1);
    if let Some(next) = next {
        focus(fields::id(next));
    }
}

/// The ids of the lists of what other engines on this tablet say.
const KNOWN_FLEETS: &str = "known-fleets";
const KNOWN_OILS: &str = "known-oils";
const KNOWN_GRADES: &str = "known-grades";

/// The list of what other engines on this tablet say in that field; see [`Suggestions`].
fn suggestions(field: FactField) -> Option<&'static str> {
    match field {
        FactField::Fleet => Some(KNOWN_FLEETS),
        FactField::Oil => Some(KNOWN_OILS),
        FactField::OilGrade => Some(KNOWN_GRADES),
        _ => None,
    }
}

/// What other engines on this tablet say: offered where the same thing is likely to be said again.
#[component]
pub fn Suggestions() -> impl IntoView {
    let shelf = crate::store::use_shelf();
    let list = move |id: &'static str, of: fn(Summary) -> String| {
        let known = move || {
            let said = shelf
                .cards()
                .into_iter()
                .filter_map(|card| card.summary.ok().map(of))
                .filter(|text| !text.is_empty());
            let mut known = by_key(said, String::clone);
            known.dedup();
            known
        };
        view! {
            <datalist id=id>
                {live(move || known().into_iter().map(|text| view! { <option value=text></option> }.into_any()).collect_view())}
            </datalist>
        }
    };
    view! {
        {list(KNOWN_FLEETS, |summary| summary.fleet)}
        {list(KNOWN_OILS, |summary| summary.oil)}
        {list(KNOWN_GRADES, |summary| summary.oil_grade)}
    }
}
