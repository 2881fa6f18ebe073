//! The area painter: pick a level, drag over the unrolled surface, or type the shares.

use leptos::prelude::*;
use ringland_card::{LevelId, Look, Scale, entry::SECTORS, plan::LeafId, scale::CLEAN};
use ringland_report::{format::parse_number, help::Topic, photo::Album, swatch};
use wasm_bindgen::JsCast;

use super::{PadHelp, draft_figure, keep, use_bench};
use crate::{
    components::{
        act::{press, send, text},
        live::live,
        painter::{Draft, Fills, Painter},
    },
    route::Route,
    store::{prefs::use_words, use_card},
};

/// The pad of a scale by area.
#[component]
pub(super) fn AreasPad(leaf: LeafId, scale: Scale) -> impl IntoView {
    let (bench, words) = (use_bench(), use_words());
    let Ok(clean) = LevelId::new(CLEAN) else {
        return ().into_any();
    };
    let levels: Vec<LevelId> = scale.levels().into_iter().cloned().collect();
    if levels.is_empty() {
        return ().into_any();
    }
    let store = use_card();
    let mine = match bench.mine(leaf) {
        Some((_, Look::Areas(areas))) => Some(areas),
        _ => None,
    };
    let proposed = store.proposed(leaf);
    let draft = RwSignal::new(Draft::new(proposed.as_ref().or(mine.as_ref()), &clean));
    let as_before = Draft::new(mine.as_ref(), &clean);
    let leave = move || {
        store.forget_proposed(leaf);
        draft.set(as_before.clone());
    };
    let brush = RwSignal::new(levels.first().cloned().unwrap_or_else(|| clean.clone()));
    let unrolled = store
        .peek(|open| {
            open.card
                .index()
                .leaf(leaf)
                .map(|at| at.place(open.card.plan()).id.to_string())
        })
        .flatten()
        .is_some_and(|place| place.starts_with("piston"));
    let all: Vec<LevelId> = levels.iter().cloned().chain([clean.clone()]).collect();
    let named = all
        .iter()
        .map(|level| (level.clone(), words.level(&scale, level).to_owned()));
    let named: Vec<(LevelId, String)> = named.collect();
    let count = levels.len();
    let classes = (0..all.len()).map(|number| swatch::level_class(number, count));
    let fills = StoredValue::new(Fills::new(all.iter().cloned().zip(classes)));
    let figure = {
        let scale = scale.clone();
        move || {
            draft
                .with(|draft| draft_figure(&scale, &draft.areas()))
                .map(|figure| words.numbers.figure(figure))
        }
    };
    let figure_name = if matches!(scale, Scale::Area { .. }) {
        words.pad.demerit
    } else {
        words.pad.merit
    };
    let clean_now = clean.clone();
    let total = move || draft.with(|draft| draft.areas().shares.values().sum::<f64>());
    let over = move || total() > 100.0 + ringland_card::look::AREA_TOLERANCE;
    let done = move || {
        take_share_being_typed();
        if !over() {
            keep(bench, leaf, Look::Areas(draft.with_untracked(Draft::areas)));
            store.forget_proposed(leaf);
        }
    };
    let whole = move || {
        let level = brush.get_untracked();
        draft.update(|draft| {
            (0..usize::from(SECTORS)).for_each(|n| draft.paint(n, &level, &clean_now));
        });
    };
    view! {
        <p class="fine"><PadHelp leaf topic=Topic::Areas/></p>
        {proposed.map(|_| view! { <Proposed draft leave=Callback::new(move |()| leave())/> }.into_any())}
        <Painter draft brush fills unrolled clean=clean.clone()/>
        <form class="areas" on:submit=send(done)>
        <div class="levels" role="group" aria-label=words.pad.levels>
            {named.into_iter().map(|(level, name)| view! { <Level level name draft brush fills/> }).collect_view()}
        </div>
        <div class="areas__foot">
            <button type="button" class="button" on:click=press(whole)>{words.pad.paint_whole}</button>
            <p class="areas__sum num" class:areas__sum--over=over>
                {move || format!("{} {}", figure_name, figure().unwrap_or_default())}
                <span class="fine">{live(move || over().then(|| words.pad.over_100(&words.numbers.percent(total()))))}</span>
            </p>
            <button type="submit" id="keep-areas" class="button button--act" disabled=over>{words.pad.keep}</button>
        </div>
        </form>
        <FromPhoto leaf/>
    }
    .into_any()
}

/// That the figures come from a photo, as long as they do.
#[component]
fn Proposed(draft: RwSignal<Draft>, leave: Callback<()>) -> impl IntoView {
    let words = use_words();
    let said = Memo::new(move |_| {
        draft.with(|draft| {
            let read = draft.read_off()?;
            let by = words.by_shade(read.shade);
            Some(words.photo_areas.proposed(read.classes.len(), by))
        })
    });
    live(move || {
        said.get().map(|said| {
            view! {
                <div class="proposed" role="status">
                    <p>{said}</p>
                    <button type="button" class="button" id="areas-drop" on:click=press(move || leave.run(()))>{words.photo_areas.drop}</button>
                </div>
            }
            .into_any()
        })
    })
}

/// The way to read areas off the last photo of the position.
#[component]
fn FromPhoto(leaf: LeafId) -> impl IntoView {
    let (store, words) = (use_card(), &use_words().photo_areas);
    live(move || {
        let there = store.whole(|open| {
            let at = open.card.index().leaf(leaf)?;
            let position = at.position(open.card.plan()).id.as_str();
            let standing = open.card.standing();
            let album = Album::of(&standing);
            let last = album.at(Some(position)).last().copied()?;
            let entry = album.photos.get(last)?.entry.id;
            Some(Route::areas_at(open.card.id(), entry, leaf))
        });
        match there.flatten() {
            Some(href) => view! {
                <p><a class="button" id="pad-areas" href=href>{words.from_photo}</a></p>
            }
            .into_any(),
            None => view! { <p class="fine"><b>{words.from_photo}</b>": "{words.photo_first}</p> }
                .into_any(),
        }
    })
}

/// What is typed next takes the place of what stands there.
fn select_all(event: leptos::ev::FocusEvent) {
    event_target::<web_sys::HtmlInputElement>(&event).select();
}

/// A share still being typed when Enter is pressed has not said so yet: it is made to.
fn take_share_being_typed() {
    if let Some(field) = document().active_element() {
        let _left = field.unchecked_into::<web_sys::HtmlElement>().blur();
    }
}

/// One level: press to paint with it, type its share.
#[component]
fn Level(
    level: LevelId,
    name: String,
    draft: RwSignal<Draft>,
    brush: RwSignal<LevelId>,
    fills: StoredValue<Fills>,
) -> impl IntoView {
    let words = use_words();
    let is_clean = level.as_str() == CLEAN;
    let fill = fills
        .with_value(|fills| fills.of(&level))
        .unwrap_or_default();
    let (mine, typed, label) = (level.clone(), level.clone(), name.clone());
    let on = {
        let level = level.clone();
        Memo::new(move |_| brush.with(|brush| *brush == level))
    };
    let share = move || {
        draft.with(|draft| {
            let areas = draft.areas();
            if is_clean {
                areas.clean()
            } else {
                areas.shares.get(&mine).copied().unwrap_or(0.0)
            }
        })
    };
    let type_share = move |text: String| {
        if let Ok(percent) = parse_number(&text) {
            draft.update(|draft| draft.type_share(&typed, percent.clamp(0.0, 100.0)));
        }
    };
    let shown = share.clone();
    let written = move |share: f64| {
        if share > 0.0 {
            words.numbers.plain(share)
        } else {
            String::new()
        }
    };
    let picked = level.clone();
    view! {
        <div class="levels__one" class:levels__one--on=move || on.get()>
            <button type="button" class="levels__pick" aria-pressed=move || on.get().to_string()
                data-level=level.to_string()
                on:click=press(move || brush.set(picked.clone()))>
                <svg class="levels__chip" viewBox="0 0 28 28" aria-hidden="true">
                    <rect width="28" height="28" rx="5" class=fill></rect>
                </svg>
                <span>{name}</span>
            </button>
            {if is_clean {
                view! { <output class="levels__share num">{move || words.numbers.percent(shown())}</output> }.into_any()
            } else {
                view! {
                    <input data-figure class="levels__share num" inputmode="decimal" aria-label=label autocomplete="off"
                        prop:value=move || written(share()) placeholder="0" on:change=text(type_share)
                        on:focus=select_all/>
                }.into_any()
            }}
        </div>
    }
}
