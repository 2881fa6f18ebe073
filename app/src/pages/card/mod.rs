//! Card: the result on one page, which opens down to the entries it was made of.
//!
//! What stands on the page is made by [`ringland_report::card`]; here it is put up, piece by piece so
//! that the first is there at once, and opened where it is pressed. Nothing on the Card changes the card.

pub mod acts;
pub mod bundle;
pub mod open;
pub mod outlook;
pub mod report;
pub mod seal;
pub mod under;
pub mod weights;

use std::time::Duration;

use leptos::{html, prelude::*, task::spawn_local};
use ringland_card::{
    file::DigestingCard,
    seal::{CheckingSeal, SealRead, last_seals},
};
use ringland_report::{card::Sheet, swatch};

use self::{
    acts::Acts,
    open::Opened,
    outlook::Outlook,
    under::{Moved, Under},
};
use crate::{
    components::{act::press, live::live},
    platform,
    route::Route,
    store::{CardStore, Prefs, open::Open, prefs::use_words, use_card, use_prefs},
};

/// How long the page gets to paint what stands above before the rest is made.
const FIRST: Duration = Duration::from_millis(30);

/// The screen: made anew when the card is moved to another plan.
#[component]
pub fn CardPage() -> impl IntoView {
    let (store, prefs) = (use_card(), use_prefs());
    let moved = RwSignal::new(None);
    view! {
        <Moved moved/>
        {live(move || {
            let blind = prefs.blind();
            store.structure(|open| match open.hidden(blind.as_deref()) {
                0 => view! { <Result moved/> }.into_any(),
                hidden => view! { <Hidden hidden rater=blind.unwrap_or_default()/> }.into_any(),
            })
        })}
    }
}

/// In place of a Card that would tell a rater what they are not to know yet.
#[component]
fn Hidden(hidden: usize, rater: String) -> impl IntoView {
    let (store, prefs, words) = (use_card(), use_prefs(), use_words());
    let bench = store.peek(|open| Route::Bench(open.card.id()).href());
    view! {
        <section class="trouble card__hidden">
            <h1>{words.pad.blind}</h1>
            <p>{words.pad.blind_card(hidden, &rater)}</p>
            <div class="panel__acts">
                <a class="button button--act" href=bench.unwrap_or_default()>{words.nav.bench}</a>
                <button type="button" class="button" id="blind-end"
                    on:click=press(move || prefs.set_blind(false))>{words.pad.blind_end}</button>
            </div>
        </section>
    }
}

#[component]
fn Result(moved: RwSignal<Option<String>>) -> impl IntoView {
    let (store, prefs, words) = (use_card(), use_prefs(), use_words());
    let page = NodeRef::<html::Article>::new();
    let opened = Opened::of(page);
    let altered = store.read_only();
    let unreadable = store.peek(|open| open.unreadable).unwrap_or_default();
    let damaged = (unreadable > 0).then(|| words.safe.unreadable(unreadable));
    let pieces = sheet(store, prefs, |sheet| {
        let sections = [sheet.sections(false), sheet.reuse()].concat();
        let gaps = [sheet.not_looked_at(), sheet.left_out()].concat();
        [
            sheet.who(),
            sheet.score(),
            sheet.worst(),
            sections,
            sheet.map(),
            gaps,
        ]
    });
    let [who, score, worst, sections, map, gaps] = pieces.unwrap_or_default();
    weights::draw(page);
    view! {
        <article class="card" node_ref=page on:click=move |event| opened.press(&event)>
            {altered.then(|| view! { <p class="trouble card__altered" role="alert">{words.bench.altered}</p> }.into_any())}
            {damaged.map(|said| view! { <p class="trouble card__altered" role="alert">{said}</p> }.into_any())}
            <div class="card__top">
                <div class="card__left">
                    <header class="head">
                        <div class="head__who" inner_html=who></div>
                        <Acts opened/>
                    </header>
                    <div inner_html=score></div>
                    <div inner_html=worst></div>
                </div>
                <div class="card__right wearmap" inner_html=map></div>
            </div>
            <div class="card__gaps" inner_html=gaps></div>
            <div inner_html=sections></div>
            <Under moved/>
            <Rest store prefs/>
            <div inner_html=swatch::defs()></div>
        </article>
    }
}

/// What stands below the first screen, made once that is painted.
#[component]
fn Rest(store: CardStore, prefs: Prefs) -> impl IntoView {
    let rest = RwSignal::new([const { String::new() }; 2]);
    let measured = store.peek(|open| open.card.standing().is_measured());
    // How often it was asked for: of two that are made at once only the later one is shown.
    let asked = StoredValue::new(0_u32);
    let make = move |number: u32| async move {
        let digesting = store.peek(|open| DigestingCard::new(&open.card))?;
        let digest = store.in_slices(digesting, DigestingCard::step).await?;
        let seals = seals_of(store).await?;
        let made = sheet(store, prefs, |sheet| below(sheet, &digest, &seals))?;
        // The page may have been left by now, or something more come onto the card.
        (asked.try_get_value()? == number).then_some(())?;
        rest.try_set(made)
    };
    // Made anew where something comes onto the card while it is looked at, such as a seal.
    Effect::new(move || {
        store.whole(|_| ());
        asked.update_value(|asked| *asked = asked.wrapping_add(1));
        let number = asked.get_value();
        let made = move || {
            spawn_local(async move {
                make(number).await;
            });
        };
        set_timeout(made, FIRST);
    });
    view! {
        <div inner_html=move || rest.with(|[measured, _]| measured.clone())></div>
        {measured.unwrap_or_default().then(|| view! { <Outlook at_once=true/> }.into_any())}
        <div class="card__rest" inner_html=move || rest.with(|[_, rest]| rest.clone())></div>
    }
}

/// The last seals of the open card, looked into in slices; none where it is closed meanwhile.
async fn seals_of(store: CardStore) -> Option<Vec<SealRead>> {
    let last = store.peek(|open| last_seals(&open.card))?;
    let mut read = Vec::new();
    for seal in last {
        let checking = store.peek(|open| CheckingSeal::new(&open.card, seal.clone()))?;
        let found = store.in_slices(checking, CheckingSeal::step).await?;
        let after = store.peek(|open| seal.after(&open.card))?;
        read.push(SealRead {
            seal,
            fault: found.err(),
            after,
        });
    }
    Some(read)
}

/// What was measured, and what stands below that.
fn below(sheet: &Sheet<'_>, digest: &str, seals: &[SealRead]) -> [String; 2] {
    let rest = [
        sheet.trade(),
        sheet.along(),
        sheet.grades(),
        sheet.people(),
        sheet.remarks(false),
        sheet.corrections(false),
        sheet.outside(),
        sheet.seals(seals),
        sheet.method(digest, false),
        sheet.cautions(),
    ]
    .concat();
    [sheet.measured(false), rest]
}

/// Reads the open card as a sheet, with this tablet's units and clock.
fn sheet<T>(store: CardStore, prefs: Prefs, read: impl FnOnce(&Sheet<'_>) -> T) -> Option<T> {
    store.peek(|open| read(&sheet_of(open, prefs)))
}

fn sheet_of(open: &Open, prefs: Prefs) -> Sheet<'_> {
    let mut sheet = Sheet::new(&open.card, &open.tree, &open.result, use_words());
    sheet.units = prefs.units();
    sheet.offset_minutes = platform::offset_minutes();
    sheet.bench = Some(Route::Bench(open.card.id()).href());
    sheet.gauging = Some(Route::Gauging(open.card.id()).href());
    sheet
}
