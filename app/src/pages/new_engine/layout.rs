//! The layout as fields: named layouts to start from, then everything that can be different.

use std::ops::RangeInclusive;

use leptos::prelude::*;
use ringland_card::{
    Layout,
    layout::{Arrangement, Camshaft, Follower, Liner},
};
use ringland_report::words::{Facts, Words};

use crate::{
    components::{
        choice::{Choice, Offer, place},
        live::live,
        stepper::{Number, Stepper},
    },
    store::prefs::use_words,
};

/// One of a few: how it is called, what may be chosen, and where it stands in the layout.
#[derive(Clone, Copy)]
struct Pick {
    name: &'static str,
    label: fn(&Facts) -> &'static str,
    offers: fn(&Words, Arrangement) -> Vec<Offer>,
    get: fn(&Layout) -> usize,
    set: fn(&mut Layout, usize),
}

const ARRANGEMENTS: [Arrangement; 2] = [Arrangement::Inline, Arrangement::Vee];
const CAMSHAFTS: [Camshaft; 3] = [
    Camshaft::Overhead,
    Camshaft::DoubleOverhead,
    Camshaft::InBlock,
];
const FOLLOWERS: [Follower; 2] = [Follower::Roller, Follower::Sliding];
const LINERS: [Liner; 3] = [Liner::Wet, Liner::Dry, Liner::ParentBore];

const STAND: Pick = Pick {
    name: "arrangement",
    label: |facts| facts.arrangement,
    offers: |words, _| named([words.facts.inline, words.facts.vee]),
    get: |layout| place(&ARRANGEMENTS, &layout.arrangement),
    set: |layout, place| set_arrangement(layout, ARRANGEMENTS[place]),
};

/// What follows the numbers of cylinders and main bearings.
const PICKS: [Pick; 10] = [
    Pick {
        name: "heads",
        label: |facts| facts.heads,
        offers: |words, arrangement| {
            let facts = &words.facts;
            let one = match arrangement {
                Arrangement::Inline => facts.one_head,
                Arrangement::Vee => facts.head_each_bank,
            };
            named([one, facts.head_each_cylinder])
        },
        get: |layout| usize::from(layout.single_cylinder_heads),
        set: |layout, place| layout.single_cylinder_heads = place == 1,
    },
    Pick {
        name: "camshaft",
        label: |facts| facts.camshaft,
        offers: |words, _| {
            let facts = &words.facts;
            named([facts.overhead, facts.double_overhead, facts.in_block])
        },
        get: |layout| place(&CAMSHAFTS, &layout.camshaft),
        set: |layout, place| layout.camshaft = CAMSHAFTS[place],
    },
    Pick {
        name: "follower",
        label: |facts| facts.follower,
        offers: |words, _| named([words.facts.roller, words.facts.sliding]),
        get: |layout| place(&FOLLOWERS, &layout.follower),
        set: |layout, place| layout.follower = FOLLOWERS[place],
    },
    Pick {
        name: "intake-valves",
        label: |facts| facts.intake_valves,
        offers: |_, _| counted(1..=3),
        get: |layout| usize::from(layout.intake_valves).saturating_sub(1),
        set: |layout, place| layout.intake_valves = count(place, 1),
    },
    Pick {
        name: "exhaust-valves",
        label: |facts| facts.exhaust_valves,
        offers: |_, _| counted(1..=3),
        get: |layout| usize::from(layout.exhaust_valves).saturating_sub(1),
        set: |layout, place| layout.exhaust_valves = count(place, 1),
    },
    Pick {
        name: "injector-lobes",
        label: |facts| facts.injector_lobes,
        offers: |words, _| named([words.common.yes, words.common.no]),
        get: |layout| usize::from(!layout.injector_lobes),
        set: |layout, place| layout.injector_lobes = place == 0,
    },
    Pick {
        name: "brake-lobes",
        label: |facts| facts.brake_lobes,
        offers: |words, _| named([words.common.yes, words.common.no]),
        get: |layout| usize::from(!layout.brake_lobes),
        set: |layout, place| layout.brake_lobes = place == 0,
    },
    Pick {
        name: "liner",
        label: |facts| facts.liner,
        offers: |words, _| {
            let facts = &words.facts;
            named([facts.wet, facts.dry, facts.parent_bore])
        },
        get: |layout| place(&LINERS, &layout.liner),
        set: |layout, place| layout.liner = LINERS[place],
    },
    Pick {
        name: "compression-rings",
        label: |facts| facts.compression_rings,
        offers: |_, _| counted(1..=4),
        get: |layout| usize::from(layout.compression_rings).saturating_sub(1),
        set: |layout, place| layout.compression_rings = count(place, 1),
    },
    Pick {
        name: "turbochargers",
        label: |facts| facts.turbochargers,
        offers: |_, _| counted(0..=4),
        get: |layout| usize::from(layout.turbochargers),
        set: |layout, place| layout.turbochargers = count(place, 0),
    },
];

fn named<const N: usize>(names: [&str; N]) -> Vec<Offer> {
    names.map(Offer::plain).into()
}

fn counted(range: RangeInclusive<u8>) -> Vec<Offer> {
    range
        .map(|number| Offer::plain(number.to_string()))
        .collect()
}

/// The number at a place of a list that begins with `first`.
fn count(place: usize, first: u8) -> u8 {
    u8::try_from(place)
        .unwrap_or_default()
        .saturating_add(first)
}

/// The fields of a layout.
#[component]
pub fn LayoutFields(
    /// The layout.
    layout: RwSignal<Layout>,
) -> impl IntoView {
    let facts = &use_words().facts;
    view! {
        <div class="layout__fields">
            <PickField layout pick=STAND/>
            <Count layout label=facts.cylinders id="cylinders" range=cylinders
                get=|layout| layout.cylinders set=set_cylinders/>
            <Count layout label=facts.mains id="mains" range=|_| (2..=25, 1)
                get=|layout| layout.mains set=|layout, mains| layout.mains = mains/>
            {PICKS.into_iter().map(|pick| view! { <PickField layout pick/> }).collect_view()}
        </div>
    }
}

/// A choice that sets one field of the layout.
#[component]
fn PickField(layout: RwSignal<Layout>, pick: Pick) -> impl IntoView {
    let words = use_words();
    // Drawn anew only where the names change, as a key press in the choice would lose its place.
    let offers = Memo::new(move |_| (pick.offers)(words, layout.with(|layout| layout.arrangement)));
    let choose = Callback::new(move |place| layout.update(|layout| (pick.set)(layout, place)));
    let chosen = Signal::derive(move || layout.with(pick.get));
    live(move || {
        view! { <Choice label=(pick.label)(&words.facts) name=pick.name offers=offers.get() chosen choose/> }
    })
}

/// A number that sets one field of the layout.
#[component]
fn Count(
    layout: RwSignal<Layout>,
    label: &'static str,
    id: &'static str,
    range: fn(&Layout) -> (RangeInclusive<u8>, u8),
    get: fn(&Layout) -> u8,
    set: fn(&mut Layout, u8),
) -> impl IntoView {
    let facts = &use_words().facts;
    let number = move |layout: &Layout| {
        let (range, step) = range(layout);
        Number {
            value: get(layout),
            range,
            step,
        }
    };
    view! {
        <Stepper label id fewer=facts.fewer(label) more=facts.more(label)
            number=Signal::derive(move || layout.with(number))
            set=Callback::new(move |value| layout.update(|layout| set(layout, value)))/>
    }
}

/// How many cylinders there may be, and in which steps.
fn cylinders(layout: &Layout) -> (RangeInclusive<u8>, u8) {
    match layout.arrangement {
        Arrangement::Inline => (1..=24, 1),
        Arrangement::Vee => (4..=24, 2),
    }
}

/// Sets the number of cylinders; main bearings that were the usual number stay the usual number.
fn set_cylinders(layout: &mut Layout, cylinders: u8) {
    let usual = |layout: &Layout| Layout::usual_mains(layout.arrangement, layout.cylinders);
    let was_usual = layout.mains == usual(layout);
    layout.cylinders = cylinders;
    if was_usual {
        layout.mains = usual(layout).clamp(2, 25);
    }
}

/// Sets how the cylinders stand; an odd number of them becomes the next even one for a V.
fn set_arrangement(layout: &mut Layout, arrangement: Arrangement) {
    if layout.arrangement == arrangement {
        return;
    }
    let usual = Layout::usual_mains(layout.arrangement, layout.cylinders);
    let was_usual = layout.mains == usual;
    layout.arrangement = arrangement;
    if arrangement == Arrangement::Vee {
        layout.cylinders = layout.cylinders.next_multiple_of(2).clamp(4, 24);
    }
    if was_usual {
        layout.mains = Layout::usual_mains(arrangement, layout.cylinders).clamp(2, 25);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_mains_follow_the_cylinders_and_others_stay() {
        let mut layout = Layout::inline_six();
        set_cylinders(&mut layout, 4);
        assert_eq!(layout.mains, 5);
        layout.mains = 3;
        set_cylinders(&mut layout, 6);
        assert_eq!(layout.mains, 3);
    }

    #[test]
    fn no_press_makes_a_layout_that_no_engine_has() {
        for start in [Layout::inline_six(), Layout::vee_eight()] {
            for arrangement in [Arrangement::Inline, Arrangement::Vee] {
                let (range, step) = cylinders(&Layout {
                    arrangement,
                    ..start.clone()
                });
                for number in range.step_by(step.into()) {
                    for back in [Arrangement::Inline, Arrangement::Vee] {
                        let mut layout = start.clone();
                        set_arrangement(&mut layout, arrangement);
                        set_cylinders(&mut layout, number);
                        assert_eq!(layout.check(), Ok(()));
                        set_arrangement(&mut layout, back);
                        assert_eq!(layout.check(), Ok(()), "{number}");
                    }
                }
            }
        }
    }
}
