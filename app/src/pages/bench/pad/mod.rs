//! The rating pad: one leaf at a time, the pad of its scale, and what else can be said of it.

mod areas;
mod cause;
mod history;
mod numbers;
mod photos;
mod rater;
mod remark;
mod steps;

use leptos::prelude::*;
use ringland_assess::trade::demerit::demerit;
use ringland_card::{Scale, plan::LeafId, scale::Method};
use ringland_report::help::Topic;

use super::state::{Bench, Mode, use_bench};
use crate::{
    components::{act::press, help::HelpLink, live::live},
    pages::photos::keep::Outcome,
    route::Route,
    store::{prefs::use_words, use_card},
};

/// The pad beside the map.
#[component]
pub(super) fn Pad() -> impl IntoView {
    let (bench, words) = (use_bench(), use_words());
    view! {
        <aside class="pad" aria-label=words.pad.title>
            {move || match bench.leaf.get() {
                Some(leaf) => view! { <LeafPad leaf/> }.into_any(),
                None => view! { <Hint/> }.into_any(),
            }}
        </aside>
    }
}

/// What to do when nothing is on the pad.
#[component]
fn Hint() -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let hint = move || {
        let (done, all) = bench.progress();
        if done == all {
            let card = store.peek(|open| Route::Card(open.card.id()).href());
            view! {
                <h2>{words.bench.all_done}</h2>
                <p class="mute">{words.bench.all_done_hint}</p>
                <a class="button button--act" href=card.unwrap_or_default()>{words.nav.card}</a>
            }
            .into_any()
        } else {
            view! {
                <h2>{words.pad.nothing_chosen}</h2>
                <p class="mute">{words.pad.nothing_chosen_hint}</p>
                <button type="button" class="button button--act" on:click=press(move || bench.open_first())>
                    {words.pad.start}
                </button>
            }
            .into_any()
        }
    };
    view! {
        <div class="pad__hint">
            {live(hint)}
            {live(move || (bench.mode.get() == Mode::Rater).then(|| view! { <rater::RaterPad/> }.into_any()))}
            <super::Cautions section=None/>
            <div inner_html=ringland_report::keys::list(words)></div>
        </div>
    }
}

#[component]
fn LeafPad(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let head = store.peek(|open| {
        let (plan, index) = (open.card.plan(), open.card.index());
        let at = index.leaf(leaf)?;
        let section = &plan.sections[at.section];
        let part = &section.parts[at.part];
        Some((
            format!(
                "{} › {}",
                words.section_name(section),
                words.part_name(part)
            ),
            words.position(plan, index, leaf)?,
            words
                .characteristic_name(at.characteristic(plan))
                .to_owned(),
            words
                .look_for(at.place(plan), at.characteristic(plan))
                .unwrap_or_default(),
        ))
    });
    let (crumb, title, what, hint) = head.flatten().unwrap_or_default();
    view! {
        <header class="pad__head">
            <p class="pad__crumb">{crumb}</p>
            <h2 class="pad__title" id="pad-title">{title}</h2>
            <p class="pad__what"><b>{what}</b>" "<span class="mute">{hint}</span></p>
        </header>
        <Refusal/>
        <div class="pad__body">
            {move || match bench.mode.get() {
                // What others wrote may say what they saw.
                Mode::Remark | Mode::Photos | Mode::History | Mode::Cause if bench.hides(leaf) => {
                    view! { <p class="pad__hidden">{words.pad.hidden}</p> }.into_any()
                }
                Mode::Rate => view! { <RatePad leaf/> }.into_any(),
                Mode::NotInspected => view! { <cause::NotInspectedPad leaf/> }.into_any(),
                Mode::Cause => view! { <cause::CausePad leaf/> }.into_any(),
                Mode::Remark => view! { <remark::RemarkPad leaf/> }.into_any(),
                Mode::Photos => view! { <photos::PhotosPad leaf/> }.into_any(),
                Mode::History => view! { <history::HistoryPad leaf/> }.into_any(),
                Mode::Rater => view! { <rater::RaterPad/> }.into_any(),
            }}
        </div>
        <Foot leaf/>
    }
}

/// The way to a page of help, and back to this leaf.
#[component]
fn PadHelp(leaf: LeafId, topic: Topic) -> impl IntoView {
    let from = use_card().peek(|open| Route::bench_at(open.card.id(), leaf));
    view! { <HelpLink topic from=from.unwrap_or_default()/> }
}

/// Why the last act was refused, in kind words.
#[component]
fn Refusal() -> impl IntoView {
    let (bench, words) = (use_bench(), use_words());
    live(move || {
        bench.refused.get().map(|refused| {
            view! {
                <p class="pad__refused" role="alert">
                    <b>{words.bench.not_kept}</b>" "{bench.store.peek(|open| super::refusal(words, open.card.plan(), &refused))}
                </p>
            }
            .into_any()
        })
    })
}

/// The pad of the scale, the figures, and the acts beside rating.
#[component]
fn RatePad(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let scale = store
        .peek(|open| {
            let characteristic = open
                .card
                .index()
                .leaf(leaf)?
                .characteristic(open.card.plan());
            open.card.plan().scale(&characteristic.scale).cloned()
        })
        .flatten();
    let pad = scale.map(|scale| match scale.method() {
        Method::Grade => view! { <steps::GradePad leaf/> }.into_any(),
        Method::State => view! { <steps::StatePad leaf scale/> }.into_any(),
        Method::Extent => view! { <numbers::ExtentPad leaf/> }.into_any(),
        Method::Count => view! { <numbers::CountPad leaf/> }.into_any(),
        Method::Area | Method::MeritArea => view! { <areas::AreasPad leaf scale/> }.into_any(),
        Method::Measured | Method::Gauged => ().into_any(),
    });
    view! {
        {pad}
        {live(move || if bench.hides(leaf) {
            view! { <p class="pad__hidden">{words.pad.hidden}</p> }.into_any()
        } else {
            view! { <Now leaf/> }.into_any()
        })}
        <Acts leaf/>
    }
}

/// What the leaf comes to now, and what its neighbours do.
#[component]
fn Now(leaf: LeafId) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let score = move || {
        store
            .position(node, |open| {
                let at = open.tree.node_of(leaf);
                let node = open.result.all.nodes[at];
                node.score.map(|score| {
                    let u = node.u.map(|u| format!("± {}", words.numbers.u(2.0 * u)));
                    (words.numbers.score(score), u.unwrap_or_default())
                })
            })
            .flatten()
    };
    let looks = move || {
        store
            .position(node, |open| {
                let demerits = &open.result.leaves[leaf.0].looks;
                demerits
                    .iter()
                    .find_map(|look| look.scored.demerit)
                    .map(|d| words.numbers.figure(d))
            })
            .flatten()
    };
    let raters = move || {
        store
            .position(node, |open| {
                let all = &open.result.leaves[leaf.0].looks;
                let of = |look: &ringland_assess::leaf::ScoredLook| {
                    let name = open
                        .card
                        .entry(look.entry)
                        .map(|entry| entry.rater.clone())?;
                    Some(format!("{name} {}", words.numbers.score(look.scored.score)))
                };
                (all.len() > 1).then(|| all.iter().filter_map(of).collect::<Vec<_>>().join(", "))
            })
            .flatten()
    };
    view! {
        <dl class="pad__now num">
            {live(move || score().map(|(score, u)| view! {
                <div><dt>{words.pad.score}</dt><dd>{score}" "<small>{u}</small></dd></div>
            }.into_any()))}
            {live(move || looks().map(|demerit| view! {
                <div><dt>{words.pad.demerit}</dt><dd>{demerit}</dd></div>
            }.into_any()))}
            {live(move || raters().map(|raters| view! {
                <div><dt>{words.pad.raters}</dt><dd class="pad__raters">{raters}</dd></div>
            }.into_any()))}
        </dl>
    }
}

/// What else can be done with the leaf.
#[component]
fn Acts(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let last = move || {
        let _changed = store.whole(|_| ());
        let (from, look) = bench.last_in_row(leaf)?;
        let (column, said) = store
            .peek(|open| {
                let (plan, index) = (open.card.plan(), open.card.index());
                let at = index.leaf(from)?;
                let scale = plan.scale(&at.characteristic(plan).scale)?;
                Some((at.position(plan).column.clone(), words.look(&look, scale)))
            })
            .flatten()?;
        Some((from, column, said))
    };
    let same = move || {
        last().filter(|(from, ..)| *from != leaf).map(|(_, column, said)| {
            view! {
                <button type="button" class="button pad__act" data-act="same" on:click=press(move || bench.same_as_last(leaf))>
                    <span>{words.pad.same_as(&column)}</span>
                    <span class="fine">{said}</span>
                </button>
            }
            .into_any()
        })
    };
    let alike = move || {
        let rest = bench.open_of_row(leaf).len();
        last().filter(|_| rest > 0).map(|(.., said)| {
            view! {
                <button type="button" class="button pad__act" data-act="alike" data-rest=rest.to_string()
                    on:click=press(move || bench.row_alike(leaf))>
                    <span>{words.pad.row_alike(rest)}</span>
                    <span class="fine">{said}</span>
                </button>
            }
            .into_any()
        })
    };
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let cause = move || {
        if bench.hides(leaf) {
            return "";
        }
        store
            .position(node, |open| words.cause(open.result.causes[leaf.0]))
            .unwrap_or_default()
    };
    let to = move |mode| press(move || bench.mode.set(mode));
    view! {
        <div class="pad__acts">
            {live(same)}
            {live(alike)}
            <button type="button" class="button pad__act" on:click=to(Mode::NotInspected)>
                {words.pad.not_inspected_more}
            </button>
            <button type="button" class="button pad__act" on:click=to(Mode::Cause)>
                <span>{words.pad.cause}</span><span class="fine">{live(cause)}</span>
            </button>
            <button type="button" class="button pad__act" on:click=to(Mode::Remark)>{words.pad.remark_more}</button>
            <button type="button" class="button pad__act" on:click=to(Mode::History)>{words.pad.history_more}</button>
            <photos::TakePhoto leaf/>
            <button type="button" class="button pad__act" id="pad-photos" on:click=to(Mode::Photos)>
                <span>{words.photos.more}</span>
                <span class="fine num">{live(move || match photos::count(store, leaf) {
                    0 => String::new(),
                    n => words.photos.count(n),
                })}</span>
            </button>
        </div>
        <Outcome/>
    }
}

/// On and back, and back from a side page of the pad.
#[component]
fn Foot(leaf: LeafId) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let rating = move || bench.mode.get() == Mode::Rate;
    let next = move || {
        let _changed = store.whole(|_| ());
        bench
            .next_of(leaf)
            .and_then(|next| bench.name_from(leaf, next))
    };
    view! {
        <footer class="pad__foot">
            {move || if rating() {
                view! {
                    <button type="button" class="button" on:click=press(move || bench.go_back())>{words.pad.previous}</button>
                    <button type="button" class="button pad__next" on:click=press(move || bench.go_on())>
                        {move || words.pad.skip_to(&next().unwrap_or_default())}
                    </button>
                }.into_any()
            } else {
                view! {
                    <button type="button" class="button pad__next" on:click=press(move || bench.mode.set(Mode::Rate))>
                        {words.pad.back_to_rating}
                    </button>
                }.into_any()
            }}
        </footer>
    }
}

/// The demerit or merit that an area draft would come to; computed by the core.
fn draft_figure(scale: &Scale, areas: &ringland_card::Areas) -> Option<f64> {
    match scale {
        Scale::Area { levels } => Some(demerit(levels, areas)),
        Scale::MeritArea { levels } => Some(ringland_assess::trade::demerit::merit(levels, areas)),
        _ => None,
    }
}

/// Whether keys on the page are for the pad rather than for a field.
pub(super) fn keys_are_free() -> bool {
    let field = document()
        .active_element()
        .map(|element| element.tag_name());
    !matches!(field.as_deref(), Some("INPUT" | "TEXTAREA" | "SELECT"))
}

/// Keeps a look, or says what is missing.
fn keep(bench: Bench, leaf: LeafId, look: ringland_card::Look) {
    bench.rate(leaf, look);
}
