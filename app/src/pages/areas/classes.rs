//! The classes: what tells them apart, where they part, and which level each is.

use leptos::prelude::*;
use ringland_assess::photo::areas::{MOVED_SHADES, levels};
use ringland_card::{
    CardId, LevelId,
    photo::{MOST_CLASSES, Shade},
};
use ringland_report::photo::{chip, shades, shares};

use super::reading::{Reading, State};
use crate::{
    app::go_to,
    components::{
        act::{press, text},
        choice::{self, Choice, Offer},
        live::live,
    },
    route::Route,
    store::{prefs::use_words, use_card},
};

/// How many classes may be chosen.
const COUNTS: [usize; MOST_CLASSES - 1] = [2, 3, 4, 5];

/// The classes of a reading, and the way to the pad.
#[component]
pub(super) fn Classes(reading: Reading, card: CardId) -> impl IntoView {
    let words = use_words();
    let w = &words.photo_areas;
    let kinds = Shade::ALL.map(|shade| Offer::plain(words.shade(shade)));
    let kind = Signal::derive(move || choice::place(&Shade::ALL, &reading.shade.get()));
    let choose_kind = Callback::new(move |place: usize| {
        if let Some(shade) = Shade::ALL.get(place) {
            reading.shade.set(*shade);
        }
    });
    let counts = COUNTS.map(|count| Offer::plain(count.to_string()));
    let count = Signal::derive(move || choice::place(&COUNTS, &reading.classes.get()));
    let choose_count = Callback::new(move |place: usize| {
        if let Some(count) = COUNTS.get(place) {
            reading.classes.set(*count);
        }
    });
    // Made anew where there are more or fewer of them, not while one is moved.
    let parted = Memo::new(move |_| reading.cuts.with(Vec::len));
    let to_pad = move || {
        if let Some(leaf) = reading.propose() {
            go_to(&Route::bench_at(card, leaf));
        }
    };
    let colour = move |_| reading.coloured.update(|coloured| *coloured = !*coloured);
    view! {
        <Choice label=w.parted_by name="areas-shade" offers=Vec::from(kinds) chosen=kind choose=choose_kind/>
        <Choice label=w.how_many name="areas-count" offers=Vec::from(counts) chosen=count choose=choose_count/>
        {live(move || said(reading))}
        {live(move || (parted.get() > 0).then(|| view! { <Parted reading cuts=parted.get()/> }.into_any()))}
        {live(move || (parted.get() > 0).then(|| view! {
            <label class="check">
                <input type="checkbox" id="areas-coloured" prop:checked=move || reading.coloured.get() on:change=colour/>
                <span>{w.colour_classes}</span>
            </label>
            <p class="fine">{w.parting(MOVED_SHADES)}</p>
            <div class="viewer__acts">
                <button type="button" class="button button--act" id="areas-to-pad"
                    disabled=move || reading.state.get() != State::Counted on:click=press(to_pad)>{w.to_pad}</button>
                <button type="button" class="button" id="areas-anew" on:click=press(move || reading.start_over())>{w.start_over}</button>
            </div>
        }.into_any()))}
    }
}

/// How far it is, and what is wrong.
fn said(reading: Reading) -> AnyView {
    let words = &use_words().photo_areas;
    let wrong = |why: &'static str| view! { <p class="trouble" role="alert">{why}</p> }.into_any();
    match reading.state.get() {
        State::NoSurface => {
            view! { <p class="mute" role="status">{words.no_region}</p> }.into_any()
        }
        State::Counting => view! { <p class="mute" role="status">{words.counting}</p> }.into_any(),
        State::Counted if reading.cuts.with(Vec::is_empty) => wrong(words.one_shade),
        State::Counted => ().into_any(),
        State::Refused(why) => wrong(match why.as_str() {
            "rectangle" => words.bad_rectangle,
            "empty" | "region" => words.empty,
            "pixels" => use_words().photos.no_picture,
            "gone" => use_words().photos.gone,
            _ => words.no_worker,
        }),
    }
}

/// The shades with their cuts, and a row for each class.
#[component]
fn Parted(reading: Reading, cuts: usize) -> impl IntoView {
    let words = use_words();
    let w = &words.photo_areas;
    let picture = move || {
        let parted = reading.cuts.get();
        reading
            .counted(|count| shades(words, count, &parted))
            .unwrap_or_default()
    };
    let said = Memo::new(move |_| {
        let read = reading.read();
        read.map(|read| shares(words, &read.classes, &read.cuts))
            .unwrap_or_default()
    });
    let rows = (0..=cuts).map(|class| {
        let share = move || said.with(|said| said.get(class).cloned().unwrap_or_default());
        let slider = (class < cuts).then(|| view! { <Slider reading cut=class/> }.into_any());
        view! {
            <li class="parted__class">
                <span class="parted__chip" inner_html=chip(class)></span>
                <Level reading class/>
                <output class="num parted__share" data-class=class.to_string()>{share}</output>
                {slider}
            </li>
        }
        .into_any()
    });
    view! {
        <div class="parted">
            <div class="parted__shades" inner_html=picture></div>
            <ul class="parted__classes" aria-label=w.classes>{rows.collect_view()}</ul>
        </div>
    }
}

/// Where a class and the next part.
#[component]
fn Slider(reading: Reading, cut: usize) -> impl IntoView {
    let words = &use_words().photo_areas;
    let at = move || {
        reading
            .cuts
            .with(|cuts| cuts.get(cut).copied().unwrap_or_default())
    };
    let moved = move |typed: String| {
        if let Ok(to) = typed.parse() {
            reading.move_cut(cut, to);
        }
    };
    view! {
        <input type="range" class="parted__cut" min="0" max="254" step="1" id=format!("areas-cut-{cut}")
            aria-label=words.cut(cut + 1, cut + 2)
            prop:value=move || at().to_string() on:input=text(moved)/>
    }
}

/// The level of a class.
#[component]
fn Level(reading: Reading, class: usize) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let options = move || {
        let now = reading.levels.with(|levels| levels.get(class).cloned());
        let leaf = reading.leaf.get()?;
        let named = store.peek(|open| {
            let plan = open.card.plan();
            let look = open.card.index().leaf(leaf)?.characteristic(plan);
            let scale = plan.scale(&look.scale)?;
            let levels = levels(scale).into_iter();
            let named = levels.map(|level| {
                let name = words.level(scale, &level).to_owned();
                (level, name)
            });
            Some(named.collect::<Vec<_>>())
        });
        let named = named.flatten()?.into_iter();
        let options = named.map(|(level, name)| {
            let selected = now.as_ref() == Some(&level);
            view! { <option value=level.to_string() selected=selected>{name}</option> }.into_any()
        });
        Some(options.collect_view().into_any())
    };
    let choose = move |typed: String| {
        if let Ok(level) = LevelId::new(&typed) {
            reading.levels.update(|levels| {
                if let Some(place) = levels.get_mut(class) {
                    *place = level;
                }
            });
        }
    };
    view! {
        <select class="field__input parted__level" aria-label=words.photo_areas.level_of(class + 1)
            data-class=class.to_string() on:change=text(choose)>{live(options)}</select>
    }
}
