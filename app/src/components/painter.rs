//! The area painter: an unrolled surface in 36 fields, painted with a level by dragging over it.

use std::collections::BTreeMap;

use leptos::{ev::PointerEvent, prelude::*};
use ringland_card::{Areas, LevelId, entry::SECTORS, photo::PhotoAreas};
use wasm_bindgen::JsCast;

use crate::store::prefs::use_words;

/// What is being painted and not yet kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// The level of each sector from the front round; `None` once shares were typed.
    sectors: Option<Vec<LevelId>>,
    /// The shares, where they were typed.
    typed: BTreeMap<LevelId, f64>,
    /// How they were read off a photo, where they were; what is painted by eye was not.
    read_off: Option<Box<PhotoAreas>>,
}

impl Draft {
    /// A draft of what was seen before, or of a clean surface.
    pub fn new(areas: Option<&Areas>, clean: &LevelId) -> Self {
        let blank = vec![clean.clone(); usize::from(SECTORS)];
        let Some(areas) = areas else {
            return Self {
                sectors: Some(blank),
                typed: BTreeMap::new(),
                read_off: None,
            };
        };
        let by_shares = areas.read_off.is_some() || !areas.shares.is_empty();
        if areas.painted.is_empty() && by_shares {
            return Self {
                sectors: None,
                typed: areas.shares.clone(),
                read_off: areas.read_off.clone(),
            };
        }
        let painted: Vec<LevelId> = areas
            .painted
            .iter()
            .flat_map(|stretch| {
                std::iter::repeat_n(stretch.level.clone(), usize::from(stretch.sectors))
            })
            .collect();
        let sectors = if painted.is_empty() { blank } else { painted };
        Self {
            sectors: Some(sectors),
            typed: BTreeMap::new(),
            read_off: None,
        }
    }

    /// What it comes to.
    pub fn areas(&self) -> Areas {
        let painted = self.sectors.as_deref().and_then(Areas::from_sectors);
        painted.unwrap_or_else(|| Areas {
            shares: self.typed.clone(),
            painted: Vec::new(),
            read_off: self.read_off.clone(),
        })
    }

    /// Paints one sector; shares that were typed give way to the painting.
    pub fn paint(&mut self, sector: usize, level: &LevelId, clean: &LevelId) {
        let sectors = self
            .sectors
            .get_or_insert_with(|| vec![clean.clone(); usize::from(SECTORS)]);
        if let Some(place) = sectors.get_mut(sector) {
            *place = level.clone();
        }
        self.typed.clear();
        self.read_off = None;
    }

    /// How it was read off a photo, where it was.
    pub fn read_off(&self) -> Option<&PhotoAreas> {
        self.read_off.as_deref()
    }

    /// Takes a typed share; a painting gives way to the shares.
    pub fn type_share(&mut self, level: &LevelId, percent: f64) {
        if self.sectors.is_some() {
            self.typed = self.areas().shares;
            self.sectors = None;
        }
        if percent > 0.0 {
            self.typed.insert(level.clone(), percent);
        } else {
            self.typed.remove(level);
        }
    }
}

/// The class of each level's fill.
#[derive(Clone, Debug)]
pub struct Fills(Vec<(LevelId, &'static str)>);

impl Fills {
    /// With the levels and their classes.
    pub fn new(levels: impl Iterator<Item = (LevelId, &'static str)>) -> Self {
        Self(levels.collect())
    }

    /// The class of a level; none where the scale does not know it.
    pub fn of(&self, level: &LevelId) -> Option<&'static str> {
        let found = self.0.iter().find(|(known, _)| known == level);
        found.map(|(_, class)| *class)
    }
}

/// The unrolled surface: 36 sectors from the front round, or a flat surface in 36 fields.
///
#[component]
pub fn Painter(
    /// What is being painted.
    draft: RwSignal<Draft>,
    /// The level to paint with.
    brush: RwSignal<LevelId>,
    /// The class of each level's fill.
    fills: StoredValue<Fills>,
    /// Whether the surface goes round, or lies flat.
    unrolled: bool,
    /// What is left over.
    clean: LevelId,
) -> impl IntoView {
    let words = use_words();
    let painting = RwSignal::new(false);
    let surface = NodeRef::<leptos::svg::Svg>::new();
    let (columns, rows) = if unrolled { (36, 1) } else { (9, 4) };
    let (wide, high) = if unrolled { (12.0, 84.0) } else { (48.0, 30.0) };
    let paint = move |event: &PointerEvent| {
        let Some(svg) = surface.get_untracked() else {
            return;
        };
        let frame = svg
            .unchecked_ref::<web_sys::Element>()
            .get_bounding_client_rect();
        let at = |offset: f64, size: f64, count: i32| {
            #[expect(
                clippy::cast_possible_truncation,
                reason = "a pixel offset over a pixel size"
            )]
            let n = (offset / size * f64::from(count)).floor() as i32;
            (0..count).contains(&n).then_some(n)
        };
        let x = at(
            f64::from(event.client_x()) - frame.left(),
            frame.width(),
            columns,
        );
        let y = at(
            f64::from(event.client_y()) - frame.top(),
            frame.height(),
            rows,
        );
        if let (Some(x), Some(y)) = (x, y) {
            let level = brush.get_untracked();
            let sector = usize::try_from(y * columns + x).unwrap_or_default();
            draft.update(|draft| draft.paint(sector, &level, &clean));
        }
    };
    let (down, moved) = (paint.clone(), paint);
    let start = move |event: PointerEvent| {
        event.prevent_default();
        if let Some(svg) = surface.get_untracked() {
            // Without it a finger that leaves the surface would go on scrolling the page.
            let _captured = svg
                .unchecked_ref::<web_sys::Element>()
                .set_pointer_capture(event.pointer_id());
        }
        painting.set(true);
        down(&event);
    };
    let go_on = move |event: PointerEvent| {
        if painting.get_untracked() {
            moved(&event);
        }
    };
    let stop = move |_: PointerEvent| painting.set(false);
    let fields = (0..usize::from(SECTORS)).map(|sector| {
        let column = sector % usize::try_from(columns).unwrap_or(1);
        let row = sector / usize::try_from(columns).unwrap_or(1);
        let class = move || {
            draft.with(|draft| {
                let level = draft
                    .sectors
                    .as_ref()
                    .and_then(|sectors| sectors.get(sector));
                level
                    .and_then(|level| fills.with_value(|fills| fills.of(level)))
                    .unwrap_or("level--typed")
            })
        };
        view! {
            <rect x=(column as f64 * wide).to_string() y=(row as f64 * high).to_string()
                width=(wide - 1.0).to_string() height=(high - 1.0).to_string() class=class></rect>
        }
        .into_any()
    });
    let marks = unrolled.then(|| {
        let names = [
            words.pad.front,
            words.pad.thrust,
            words.pad.rear,
            words.pad.anti_thrust,
        ];
        view! {
            <div class="painter__marks" aria-hidden="true">
                {names.map(|name| view! { <span>{name}</span> }.into_any()).into_iter().collect_view()}
            </div>
        }
        .into_any()
    });
    view! {
        <div class="painter">
            {marks}
            <svg class="painter__surface" class:painter__surface--flat=!unrolled
                viewBox=format!("0 0 {} {}", wide * f64::from(columns), high * f64::from(rows))
                preserveAspectRatio="none" role="img" aria-label=words.pad.painter node_ref=surface
                on:pointerdown=start on:pointermove=go_on on:pointerup=stop on:pointercancel=stop>
                {fields.collect_view()}
            </svg>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(id: &str) -> LevelId {
        LevelId::new(id).unwrap()
    }

    #[test]
    fn painting_and_typing_give_way_to_each_other() {
        let clean = level("clean");
        let mut draft = Draft::new(None, &clean);
        assert_eq!(draft.areas().shares.len(), 0);
        (0..9).for_each(|sector| draft.paint(sector, &level("heavy_carbon"), &clean));
        assert_eq!(draft.areas().shares.get("heavy_carbon"), Some(&25.0));
        draft.type_share(&level("light_carbon"), 10.0);
        let areas = draft.areas();
        assert!(areas.painted.is_empty());
        assert_eq!(areas.shares.get("heavy_carbon"), Some(&25.0));
        assert_eq!(areas.shares.get("light_carbon"), Some(&10.0));
        draft.paint(0, &level("heavy_carbon"), &clean);
        assert_eq!(draft.areas().shares.len(), 1);
        assert_eq!(Draft::new(Some(&areas), &clean).areas(), areas);
    }
}
