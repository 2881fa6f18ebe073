//! What the Gauging screen shows, and what it keeps.

use std::time::Duration;

use leptos::prelude::*;
use ringland_assess::gauging::slip::{Slip, slip};
use ringland_card::{
    Body, EntryId, GaugeId, SpotId, Standing,
    entry::At,
    gauging::{EXTRA_STATIONS, Makes, Reading, Spot, Unit},
    plan::LeafId,
    scale::Scale,
};
use ringland_report::{
    format::{TypedReading, parse_number, time},
    gauging::{Gauger, Kind, Marks},
    words::{CLEARED, capitalised},
};

use crate::{
    app::announce,
    platform,
    store::{
        CardStore, Prefs,
        open::{Draft, Kept, Open, Refused, refusal},
        prefs::use_words,
        use_card, use_prefs,
    },
};

/// How long the hand rests before the plots are drawn.
const REST: Duration = Duration::from_millis(250);

/// A field of the screen: the spot of a leaf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct At1 {
    /// The leaf.
    pub leaf: LeafId,
    /// Where on its grid.
    pub spot: Spot,
}

/// A question about a figure that was typed and is not kept yet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Question {
    /// Where it was typed.
    pub at: At1,
    /// What was typed.
    pub text: String,
    /// What may be wrong with it.
    pub said: String,
}

/// What stands around the fields, worked out once after every change.
#[derive(Clone, Debug, Default, PartialEq)]
struct Around {
    progress: (usize, usize),
    title: String,
    hint: &'static str,
    limits: String,
    /// The unit that the kind is read in.
    unit: Option<Unit>,
}

/// The card through the eyes of whoever measures: a `Copy` handle.
#[derive(Clone, Copy)]
pub(super) struct Eyes {
    /// The open card.
    pub store: CardStore,
    prefs: Prefs,
    /// Whether parts are read as they went in.
    pub as_new: RwSignal<bool>,
}

impl Eyes {
    fn read<T>(self, open: &Open, read: impl FnOnce(&Gauger<'_>) -> T) -> T {
        let (rater, blind) = (self.prefs.rater(), self.prefs.blind());
        let standing: Standing<'_> = open.card.standing();
        read(&Gauger {
            standing: &standing,
            words: use_words(),
            units: self.prefs.units(),
            rater: &rater,
            blind: blind.is_some(),
            as_new: self.as_new.get(),
        })
    }

    /// Reads it; the caller runs again after every change.
    fn whole<T>(self, read: impl FnOnce(&Gauger<'_>) -> T) -> Option<T> {
        self.store.whole(|open| self.read(open, read))
    }

    fn around(self, kind: Option<LeafId>) -> Around {
        let around = self.whole(|gauger| {
            let progress = gauger.progress();
            let Some(kind) = kind.and_then(|kind| gauger.kind_of(kind)) else {
                return Around {
                    progress,
                    ..Around::default()
                };
            };
            Around {
                progress,
                title: capitalised(&gauger.title(kind)),
                hint: gauger.hint(kind),
                limits: gauger.limits(kind),
                unit: Some(gauger.unit(kind)),
            }
        });
        around.unwrap_or_default()
    }
}

/// A `Copy` handle on the state of the screen.
#[derive(Clone, Copy)]
pub(super) struct Gauging {
    /// How the card is read.
    pub eyes: Eyes,
    around: Memo<Around>,
    marks: StoredValue<Marks>,
    plots: RwSignal<String>,
    /// The kind of size on the screen, by its first leaf.
    pub kind: RwSignal<Option<LeafId>>,
    /// Whether the hand goes along the engine, spot by spot.
    pub by_row: RwSignal<bool>,
    /// The gauge of the next readings, by kind where one was chosen.
    gauge: RwSignal<Option<GaugeId>>,
    /// The unit of the next readings, where another was chosen than the kind's own.
    unit: RwSignal<Option<Unit>>,
    /// The temperature as typed.
    pub warmth: RwSignal<String>,
    /// How many heights stand on the screen beyond those read.
    extra: RwSignal<usize>,
    /// Whether the size sheets are on the screen.
    pub sheet_open: RwSignal<bool>,
    /// What is asked about a figure.
    pub question: RwSignal<Option<Question>>,
    /// Draws the fields anew.
    drawn: Trigger,
    /// Whether the boxes of the kind were drawn before the effect that draws them ran.
    pub drawn_ahead: StoredValue<bool>,
    /// How many readings wait for the disk.
    waiting: RwSignal<usize>,
    /// Why the last figure was refused.
    pub refused: RwSignal<Option<String>>,
}

/// The state of the screen.
pub(super) fn provide_gauging() -> Gauging {
    let eyes = Eyes {
        store: use_card(),
        prefs: use_prefs(),
        as_new: RwSignal::new(false),
    };
    let kind = RwSignal::new(None);
    let page = Gauging {
        eyes,
        around: Memo::new(move |_| eyes.around(kind.get())),
        marks: StoredValue::new(Marks::default()),
        plots: RwSignal::new(String::new()),
        kind,
        by_row: RwSignal::new(false),
        gauge: RwSignal::new(None),
        unit: RwSignal::new(None),
        warmth: RwSignal::new(String::new()),
        extra: RwSignal::new(0),
        sheet_open: RwSignal::new(false),
        question: RwSignal::new(None),
        drawn: Trigger::new(),
        drawn_ahead: StoredValue::new(false),
        waiting: RwSignal::new(0),
        refused: RwSignal::new(None),
    };
    page.plot_when_the_hand_rests();
    page
}

impl Gauging {
    /// Reads the card; the caller runs again after every change.
    pub(super) fn whole<T>(self, read: impl FnOnce(&Gauger<'_>) -> T) -> Option<T> {
        self.eyes.whole(read)
    }

    /// Reads it; the caller is not woken.
    pub(super) fn peek<T>(self, read: impl FnOnce(&Gauger<'_>) -> T) -> Option<T> {
        untrack(|| self.eyes.store.peek(|open| self.eyes.read(open, read)))
    }

    /// Shows the kind that a leaf is of.
    pub(super) fn open(self, leaf: LeafId) {
        let kind = self.peek(|gauger| gauger.kind_of(leaf)).flatten();
        if let Some(kind) = kind {
            self.extra.set(0);
            self.unit.set(None);
            self.question.set(None);
            self.refused.set(None);
            self.sheet_open.set(false);
            self.kind.set(Some(kind.first));
            self.take_up_gauge(kind);
        }
    }

    /// Shows the first kind.
    pub(super) fn open_first(self) {
        let first = self.peek(|gauger| gauger.kinds().first().map(|kind| kind.first));
        if let Some(first) = first.flatten() {
            self.open(first);
        }
    }

    /// The kind after this one.
    pub(super) fn next_kind(self) -> Option<LeafId> {
        let now = self.kind.get_untracked()?;
        self.peek(|gauger| {
            let mut kinds = gauger.kinds().into_iter().map(|kind| kind.first);
            kinds.find(|first| *first > now)
        })
        .flatten()
    }

    /// The gauge that this kind was last read with goes on.
    fn take_up_gauge(self, kind: Kind) {
        let last = self.peek(|gauger| {
            let readings = kind
                .leaves()
                .flat_map(|leaf| gauger.standing.readings[leaf.0].values());
            let last = readings.max_by_key(|entry| entry.order())?;
            match &last.body {
                Body::Reading { reading } => Some(reading.gauge),
                _ => None,
            }
        });
        if let Some(last) = last.flatten() {
            self.gauge.set(last);
        }
    }

    pub(super) fn list(self) -> String {
        let chosen = self.kind.get();
        let list = |gauger: &Gauger<'_>| {
            let marks = self.marks.try_update_value(|marks| marks.of(gauger));
            gauger.list(chosen, &marks.unwrap_or_default())
        };
        self.whole(list).unwrap_or_default()
    }

    pub(super) fn progress(self) -> (usize, usize) {
        self.around.with(|around| around.progress)
    }

    /// How the last attempt to keep something went.
    pub(super) fn kept_said(self) -> String {
        let words = use_words();
        match self.eyes.store.kept() {
            Kept::Nothing => String::new(),
            Kept::Writing => words.bench.keeping.to_owned(),
            // Kept is said once everything typed ahead is.
            Kept::At(_) if self.waiting.get() > 0 => words.bench.keeping.to_owned(),
            Kept::At(ms) => words.bench.kept_at(&time::time_of_day(
                time::from_ms(ms),
                platform::offset_minutes(),
            )),
            Kept::Not(_) => words.bench.not_kept.to_owned(),
        }
    }

    pub(super) fn title(self) -> String {
        self.around.with(|around| around.title.clone())
    }

    pub(super) fn hint(self) -> &'static str {
        self.around.with(|around| around.hint)
    }

    pub(super) fn limits(self) -> String {
        self.around.with(|around| around.limits.clone())
    }

    /// The section of the kind, by number.
    pub(super) fn section(self) -> Option<usize> {
        let leaf = self.kind.get()?;
        let section = |open: &Open| Some(open.card.index().leaf(leaf)?.section);
        self.eyes.store.peek(section).flatten()
    }

    /// Plots of the kind.
    pub(super) fn plots(self) -> String {
        self.plots.get()
    }

    /// Draws the plots once nothing has changed for a moment: a gauge types quicker than they can be drawn.
    fn plot_when_the_hand_rests(self) {
        let asked = StoredValue::new(0_u32);
        Effect::new(move || {
            let kind = self.kind.get();
            self.eyes.as_new.track();
            self.eyes.store.whole(|_| ());
            asked.update_value(|asked| *asked = asked.wrapping_add(1));
            let now = asked.get_value();
            let plot = move || {
                // Another change may have come, or the page been left.
                if asked.try_get_value() == Some(now) {
                    let plots = self.peek(|gauger| Some(gauger.plots(gauger.kind_of(kind?)?)));
                    self.plots.set(plots.flatten().unwrap_or_default());
                }
            };
            set_timeout(plot, REST);
        });
    }

    /// The unit of the next readings.
    pub(super) fn unit(self) -> Unit {
        let own = self.around.with(|around| around.unit);
        match (self.unit.get(), own) {
            (Some(unit), Some(own)) if unit.quantity() == own.quantity() => unit,
            (_, own) => own.unwrap_or(Unit::Mm),
        }
    }

    pub(super) fn choose_unit(self, unit: Option<Unit>) {
        self.unit.set(unit);
    }

    pub(super) fn gauge(self) -> Option<GaugeId> {
        self.gauge.get()
    }

    /// Takes another gauge in hand: it types its own unit.
    pub(super) fn choose_gauge(self, gauge: Option<GaugeId>) {
        self.gauge.set(gauge);
        let unit = self.peek(|gauger| Some(gauger.standing.gauge(gauge?)?.unit));
        if let Some(unit) = unit.flatten() {
            self.unit.set(Some(unit));
        }
    }

    pub(super) fn show_new(self, as_new: bool) {
        self.question.set(None);
        self.eyes.as_new.set(as_new);
    }

    /// Whether the kind has heights, to which more may be added.
    pub(super) fn has_heights(self) -> bool {
        let leaf = self.kind.get();
        let has = |open: &Open| {
            let plan = open.card.plan();
            let look = open.card.index().leaf(leaf?)?.characteristic(plan);
            match plan.scale(&look.scale)? {
                Scale::Gauged(scale) => {
                    Some(!scale.stations.is_empty() && scale.makes == Makes::Furthest)
                }
                _ => None,
            }
        };
        self.eyes.store.peek(has).flatten().unwrap_or(false)
    }

    pub(super) fn add_height(self) {
        self.extra.update(|extra| *extra += 1);
    }

    /// The grid with the heights that were added on the screen.
    pub(super) fn spots(self, gauger: &Gauger<'_>, kind: Kind) -> Vec<Spot> {
        let mut spots = gauger.spots(kind);
        let axes: Vec<Option<SpotId>> = {
            let first = spots.first().map(|spot| spot.station.clone());
            let row = spots
                .iter()
                .take_while(|spot| Some(&spot.station) == first.as_ref());
            row.map(|spot| spot.axis.clone()).collect()
        };
        let free = EXTRA_STATIONS
            .into_iter()
            .filter_map(|id| SpotId::new(id).ok());
        let known: Vec<Option<SpotId>> = spots.iter().map(|spot| spot.station.clone()).collect();
        let free = free.filter(|id| !known.contains(&Some(id.clone())));
        for station in free.take(self.extra.get()) {
            spots.extend(axes.iter().map(|axis| Spot {
                station: Some(station.clone()),
                axis: axis.clone(),
            }));
        }
        spots
    }

    /// The boxes with their fields; the caller runs again when another kind, state, grid or plan shows.
    pub(super) fn boxes(self) -> String {
        let kind = self.kind.get();
        self.drawn.track();
        self.eyes
            .store
            .structure(|open| {
                self.eyes.read(open, |gauger| {
                    let kind = gauger.kind_of(kind?)?;
                    Some(gauger.boxes(kind, &self.spots(gauger, kind)))
                })
            })
            .flatten()
            .unwrap_or_default()
    }

    /// The sign of the unit that temperatures are typed in.
    pub(super) fn warmth_unit(self) -> &'static str {
        self.eyes.prefs.units().temperature.symbol()
    }

    /// The temperature of the next readings in °C; none where nothing was typed.
    pub(super) fn warmth_c(self) -> Result<Option<f64>, String> {
        use ringland_report::format::TemperatureUnit;
        let text = self.warmth.get();
        if text.trim().is_empty() {
            return Ok(None);
        }
        let figure = parse_number(&text).map_err(|error| use_words().number_error(&error))?;
        let unit = self.eyes.prefs.units().temperature;
        let celsius = TemperatureUnit::Celsius.value(unit.temperature(figure));
        Ok(Some(celsius))
    }

    /// Looks at what was typed on a spot, as it would be kept.
    fn reading(self, open: &Open, at: &At1, typed: TypedReading) -> Result<Reading, String> {
        let leaf = open.card.index().leaf(at.leaf);
        let plan = open.card.plan();
        let of = leaf.map(|leaf| leaf.at(plan));
        Ok(Reading {
            at: of.ok_or_else(String::new)?,
            spot: at.spot.clone(),
            as_new: self.eyes.as_new.get(),
            unit: typed.unit.unwrap_or_else(|| self.unit()),
            values: typed.values,
            gauge: self.gauge.get(),
            part_c: self.warmth_c()?,
        })
    }

    /// A reading to be kept on a spot.
    ///
    /// # Errors
    ///
    /// Why it is none, in words.
    pub(super) fn to_keep(self, at: &At1, typed: TypedReading) -> Result<Reading, String> {
        let made = untrack(|| self.eyes.store.peek(|open| self.reading(open, at, typed)));
        made.unwrap_or_else(|| Err(use_words().common.cannot_open.to_owned()))
    }

    /// What may have slipped in a reading, in words.
    pub(super) fn slip_said(self, leaf: LeafId, reading: &Reading) -> Option<String> {
        let found = self
            .peek(|gauger| slip(gauger.standing, leaf, reading))
            .flatten()?;
        let words = use_words();
        let (g, numbers) = (&words.gauging, words.numbers);
        let typed = words.reading_said(reading);
        let near = |near: f64| numbers.short(near, 4);
        Some(match found {
            Slip::Decimal { near: at } => g.slip_decimal(&typed, &near(at)),
            Slip::Unit { looks_like } => g.slip_unit(&typed, looks_like.sign()),
            Slip::Far { near: at } => g.slip_far(&typed, &near(at)),
            Slip::Swapped { here, elsewhere } => {
                g.slip_swapped(&words.spot_name(&here), &words.spot_name(&elsewhere))
            }
        })
    }

    /// The entry of this rater's reading of a spot that holds.
    fn mine(self, open: &Open, at: &At, spot: &Spot, as_new: bool) -> Option<EntryId> {
        let rater = self.eyes.prefs.rater();
        let leaf = open.card.index().find(open.card.plan(), at)?;
        let standing = open.card.standing();
        let readings = standing.readings.get(leaf.0)?;
        readings
            .get(&(as_new, spot, rater.as_str()))
            .map(|entry| entry.id)
    }

    /// Draws the fields anew once everything asked for is kept, as after an import.
    pub(super) fn redraw(self) {
        self.eyes
            .store
            .after(move || async move { self.drawn.notify() });
    }

    /// Keeps a reading in place of this rater's last one there.
    pub(super) fn keep(self, reading: Reading) {
        let said = use_words().reading_said(&reading);
        let drafts = move || {
            self.eyes.store.peek(|open| {
                let supersedes = self.mine(open, &reading.at, &reading.spot, reading.as_new);
                let body = Body::Reading {
                    reading: Box::new(reading),
                };
                vec![Draft { body, supersedes }]
            })
        };
        self.write(Box::new(drafts), use_words().gauging.kept(&said));
    }

    /// Takes this rater's reading of a spot out, where there is one.
    pub(super) fn clear(self, at: &At1) {
        let at = at.clone();
        let as_new = self.eyes.as_new.get_untracked();
        let drafts = move || {
            self.eyes
                .store
                .peek(|open| {
                    let of = open.card.index().leaf(at.leaf)?.at(open.card.plan());
                    let entry = self.mine(open, &of, &at.spot, as_new)?;
                    let reason = CLEARED.to_owned();
                    Some(vec![Body::Void { entry, reason }.into()])
                })
                .flatten()
        };
        self.write(Box::new(drafts), String::new());
    }

    /// Keeps entries after what was asked before; a word for those who listen.
    pub(super) fn write(self, drafts: Box<dyn FnOnce() -> Option<Vec<Draft>>>, said: String) {
        let store = self.eyes.store;
        self.waiting.update(|waiting| *waiting += 1);
        store.after(move || async move {
            if let Some(drafts) = drafts().filter(|drafts| !drafts.is_empty()) {
                match store.keep(drafts).await {
                    Ok(()) => {
                        let _shown = self.refused.try_set(None);
                        announce(&said);
                    }
                    Err(why) => self.refuse(&why),
                }
            }
            // The page may have been left in between.
            let _counted = self.waiting.try_update(|waiting| *waiting -= 1);
        });
    }

    pub(super) fn refuse(self, why: &Refused) {
        let said = self
            .eyes
            .store
            .peek(|open| refusal(use_words(), open.card.plan(), why));
        self.refused.set(said);
    }
}
