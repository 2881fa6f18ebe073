//! The layout as fields: named layouts to start from, then everything that can be different.

use std::ops::RangeInclusive;

use leptos::prelude::*;
use ringland_card::{
    Layout,
    layout::{Arrangement, Camshaft, Follower, Liner},
};

use crate::{
    components::{
        choice::{Choice, Offer},
        stepper::Stepper,
    },
    store::prefs::use_words,
};

/// The fields of a layout.
#[component]
pub fn LayoutFields(
    /// The layout.
    layout: RwSignal<Layout>,
) -> impl IntoView {
    view! {
        <div class="layout__fields">
            <Cylinders layout/>
            <ValveGear layout/>
            <PowerCylinder layout/>
            <Ancillaries layout/>
        </div>
    }
}

/// A choice that sets one field of the layout.
#[component]
fn Pick<T>(
    layout: RwSignal<Layout>,
    label: &'static str,
    name: &'static str,
    options: Vec<Offer<T>>,
    get: fn(&Layout) -> T,
    set: fn(&mut Layout, T),
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let choose = Callback::new(move |value| layout.update(|layout| set(layout, value)));
    view! { <Choice label name options chosen=Signal::derive(move || layout.with(get)) choose/> }
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
    let words = use_words();
    view! {
        <Stepper label id fewer=words.facts.fewer(label) more=words.facts.more(label)
            range=Signal::derive(move || layout.with(range)) value=Signal::derive(move || layout.with(get))
            set=Callback::new(move |value| layout.update(|layout| set(layout, value)))/>
    }
}

fn few(range: RangeInclusive<u8>) -> Vec<Offer<u8>> {
    range
        .map(|number| Offer::plain(number, number.to_string()))
        .collect()
}

#[component]
fn Cylinders(layout: RwSignal<Layout>) -> impl IntoView {
    let facts = &use_words().facts;
    let stand = vec![
        Offer::plain(Arrangement::Inline, facts.inline),
        Offer::plain(Arrangement::Vee, facts.vee),
    ];
    let arrangement = Memo::new(move |_| layout.with(|layout| layout.arrangement));
    let heads = move || {
        let one = match arrangement.get() {
            Arrangement::Inline => facts.one_head,
            Arrangement::Vee => facts.head_each_bank,
        };
        vec![
            Offer::plain(false, one),
            Offer::plain(true, facts.head_each_cylinder),
        ]
    };
    view! {
        <Pick layout label=facts.arrangement name="arrangement" options=stand
            get=|layout| layout.arrangement set=set_arrangement/>
        <Count layout label=facts.cylinders id="cylinders" range=cylinders
            get=|layout| layout.cylinders set=set_cylinders/>
        <Count layout label=facts.mains id="mains" range=|_| (2..=25, 1)
            get=|layout| layout.mains set=|layout, mains| layout.mains = mains/>
        {move || view! {
            <Pick layout label=facts.heads name="heads" options=heads()
                get=|layout| layout.single_cylinder_heads
                set=|layout, single| layout.single_cylinder_heads = single/>
        }}
    }
}

#[component]
fn ValveGear(layout: RwSignal<Layout>) -> impl IntoView {
    let words = use_words();
    let facts = &words.facts;
    let camshaft = vec![
        Offer::plain(Camshaft::Overhead, facts.overhead),
        Offer::plain(Camshaft::DoubleOverhead, facts.double_overhead),
        Offer::plain(Camshaft::InBlock, facts.in_block),
    ];
    let follower = vec![
        Offer::plain(Follower::Roller, facts.roller),
        Offer::plain(Follower::Sliding, facts.sliding),
    ];
    let either = || {
        vec![
            Offer::plain(true, words.common.yes),
            Offer::plain(false, words.common.no),
        ]
    };
    view! {
        <Pick layout label=facts.camshaft name="camshaft" options=camshaft
            get=|layout| layout.camshaft set=|layout, camshaft| layout.camshaft = camshaft/>
        <Pick layout label=facts.follower name="follower" options=follower
            get=|layout| layout.follower set=|layout, follower| layout.follower = follower/>
        <Pick layout label=facts.intake_valves name="intake-valves" options=few(1..=3)
            get=|layout| layout.intake_valves set=|layout, valves| layout.intake_valves = valves/>
        <Pick layout label=facts.exhaust_valves name="exhaust-valves" options=few(1..=3)
            get=|layout| layout.exhaust_valves set=|layout, valves| layout.exhaust_valves = valves/>
        <Pick layout label=facts.injector_lobes name="injector-lobes" options=either()
            get=|layout| layout.injector_lobes set=|layout, lobes| layout.injector_lobes = lobes/>
        <Pick layout label=facts.brake_lobes name="brake-lobes" options=either()
            get=|layout| layout.brake_lobes set=|layout, lobes| layout.brake_lobes = lobes/>
    }
}

#[component]
fn PowerCylinder(layout: RwSignal<Layout>) -> impl IntoView {
    let facts = &use_words().facts;
    let liner = vec![
        Offer::plain(Liner::Wet, facts.wet),
        Offer::plain(Liner::Dry, facts.dry),
        Offer::plain(Liner::ParentBore, facts.parent_bore),
    ];
    view! {
        <Pick layout label=facts.liner name="liner" options=liner
            get=|layout| layout.liner set=|layout, liner| layout.liner = liner/>
        <Pick layout label=facts.compression_rings name="compression-rings" options=few(1..=4)
            get=|layout| layout.compression_rings set=|layout, rings| layout.compression_rings = rings/>
    }
}

#[component]
fn Ancillaries(layout: RwSignal<Layout>) -> impl IntoView {
    let facts = &use_words().facts;
    view! {
        <Pick layout label=facts.turbochargers name="turbochargers" options=few(0..=4)
            get=|layout| layout.turbochargers set=|layout, number| layout.turbochargers = number/>
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
