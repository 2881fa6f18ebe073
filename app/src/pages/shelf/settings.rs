//! What is set on this tablet: language, theme, units each by itself, who rates.

use leptos::prelude::*;
use ringland_report::{
    format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit},
    help::Topic,
    words::Language,
};

use crate::{
    components::{
        act::{press, send},
        choice::{Choice, Offer, place},
        help::HelpLink,
        live::live,
    },
    platform::focus_on,
    store::{
        prefs::{Theme, use_words},
        use_prefs,
    },
};

/// The settings.
#[component]
pub fn Settings() -> impl IntoView {
    let words = use_words();
    view! {
        <section class="panel" aria-labelledby="settings-title">
            <h2 class="panel__title" id="settings-title">{words.common.settings}</h2>
            <div class="settings">
                <LanguageChoice/>
                <ThemeChoice/>
                <UnitChoices/>
            </div>
            <p class="fine">{words.units.hint}</p>
            <Raters/>
            <h3 class="panel__side">{words.help.title}</h3>
            <ul class="ways">
                {Topic::ALL.into_iter().map(|topic| view! { <li><HelpLink topic/></li> }.into_any()).collect_view()}
            </ul>
        </section>
    }
}

#[component]
fn LanguageChoice() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let offers = Language::ALL.map(|language| Offer::plain(language.own_name()));
    let choose = Callback::new(move |place: usize| {
        prefs.set_language(Language::ALL[place]);
        // The whole view is made anew: the hand goes on where it was.
        focus_on("[name=language]:checked".to_owned());
    });
    view! {
        <Choice label=words.common.language name="language" offers=offers.into()
            chosen=Signal::derive(move || place(&Language::ALL, &prefs.language())) choose/>
    }
}

#[component]
fn ThemeChoice() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let offers = Theme::ALL.map(|theme| Offer::plain(theme.name(words)));
    view! {
        <Choice label=words.common.theme name="theme" offers=offers.into()
            chosen=Signal::derive(move || place(&Theme::ALL, &prefs.theme()))
            choose=Callback::new(move |place: usize| prefs.set_theme(Theme::ALL[place]))/>
    }
}

#[component]
fn UnitChoices() -> impl IntoView {
    let units = &use_words().units;
    view! {
        <UnitChoice label=units.distance name="unit-distance" offers=[units.kilometres, units.miles]
            get=|units| place(&DistanceUnit::ALL, &units.distance)
            set=|units, place| units.distance = DistanceUnit::ALL[place]/>
        <UnitChoice label=units.volume name="unit-volume" offers=[units.litres, units.us_gallons]
            get=|units| place(&VolumeUnit::ALL, &units.volume)
            set=|units, place| units.volume = VolumeUnit::ALL[place]/>
        <UnitChoice label=units.length name="unit-length" offers=[units.millimetres, units.inches]
            get=|units| place(&LengthUnit::ALL, &units.length)
            set=|units, place| units.length = LengthUnit::ALL[place]/>
        <UnitChoice label=units.temperature name="unit-temperature" offers=[units.celsius, units.fahrenheit]
            get=|units| place(&TemperatureUnit::ALL, &units.temperature)
            set=|units, place| units.temperature = TemperatureUnit::ALL[place]/>
    }
}

#[component]
fn UnitChoice(
    label: &'static str,
    name: &'static str,
    offers: [&'static str; 2],
    get: fn(UnitPrefs) -> usize,
    set: fn(&mut UnitPrefs, usize),
) -> impl IntoView {
    let prefs = use_prefs();
    let choose = Callback::new(move |place| {
        let mut units = prefs.units();
        set(&mut units, place);
        prefs.set_units(units);
    });
    view! {
        <Choice label name offers=offers.map(Offer::plain).into()
            chosen=Signal::derive(move || get(prefs.units())) choose/>
    }
}

/// Who rates on this tablet: one of them now, and their names.
#[component]
fn Raters() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let field = NodeRef::<leptos::html::Input>::new();
    let add = move || {
        if let Some(field) = field.get_untracked() {
            prefs.set_rater(&field.value());
            field.set_value("");
        }
    };
    let lines = move || {
        prefs
            .raters()
            .into_iter()
            .map(|name| view! { <Rater name/> })
            .collect_view()
    };
    view! {
        <h3 class="panel__side">{words.pad.raters}</h3>
        <ul class="raters">{live(lines)}</ul>
        <form class="raters__add" on:submit=send(add)>
            <label class="field">
                <span class="field__label">{words.pad.rater_name}</span>
                <input class="field__input" node_ref=field maxlength="200" autocomplete="off"/>
            </label>
            <button type="submit" class="button">{words.pad.rater_take}</button>
        </form>
    }
}

#[component]
fn Rater(name: String) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let (mine, set, gone) = (name.clone(), name.clone(), name.clone());
    let on = move || prefs.rater() == mine;
    view! {
        <li class="raters__line">
            <button type="button" class="button raters__name" aria-pressed=move || on().to_string()
                on:click=press(move || prefs.set_rater(&set))>{name.clone()}</button>
            <button type="button" class="button button--quiet" aria-label=words.shelf.forget(&name)
                on:click=press(move || prefs.forget_rater(&gone))>{words.shelf.forget_short}</button>
        </li>
    }
}
