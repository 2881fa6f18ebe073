//! Gauging as HTML: what is measured, a box for each part laid out as the part is, and what its readings say.
//!
//! A press or a figure typed leads somewhere by the markup: `data-kind` with the first leaf of a kind of size,
//! `data-leaf` with `data-station` and `data-axis` at each field. What the readings of a leaf say is drawn
//! again by its id: [`found_id`].

mod marks;
mod over_run;
mod sizes;
pub mod table;

use ringland_assess::gauging::{
    Verdict,
    finding::{Finding, Note, ShapeFigure, finding},
};
use ringland_card::{
    Standing,
    gauging::{Reading, Size, SizeField, Spot, Unit},
    ids::SpotId,
    plan::{Characteristic, Leaf, LeafId, Place},
    scale::{GaugedScale, Scale},
};

pub use self::{marks::Marks, over_run::Beside, sizes::sizes_form};
use crate::{
    format::{NBSP, UnitPrefs, expanded, size_unit},
    markup::Html,
    plot::{Along, along, profile},
    ramp,
    words::{Words, capitalised},
};

/// One kind of size: a characteristic of a place, at all its positions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kind {
    /// Its leaf at the first position.
    pub first: LeafId,
    /// How many positions there are.
    pub positions: usize,
    /// From one position's leaf to the next one's.
    stride: usize,
}

impl Kind {
    /// Its leaves from front to rear.
    pub fn leaves(self) -> impl Iterator<Item = LeafId> + Clone {
        (0..self.positions).map(move |position| LeafId(self.first.0 + position * self.stride))
    }
}

/// What a gauging page shows of a card.
#[derive(Clone, Debug)]
pub struct Gauger<'a> {
    /// What holds on the card.
    pub standing: &'a Standing<'a>,
    /// The words.
    pub words: &'static Words,
    /// The reader's units.
    pub units: UnitPrefs,
    /// Who measures: their own readings stand in the fields.
    pub rater: &'a str,
    /// Whether the others' readings are not to be seen.
    pub blind: bool,
    /// Whether the readings are those of parts as they went in.
    pub as_new: bool,
}

/// The id of what the readings of a leaf say.
pub fn found_id(leaf: LeafId) -> String {
    ["found-", &leaf.0.to_string()].concat()
}

/// The id of the field of a spot.
pub fn field_id(leaf: LeafId, spot: &Spot) -> String {
    let steps = [&spot.station, &spot.axis].map(|step| step.as_ref().map_or("", SpotId::as_str));
    ["read-", &leaf.0.to_string(), "-", steps[0], "-", steps[1]].concat()
}

impl<'a> Gauger<'a> {
    fn leaf(&self, leaf: LeafId) -> Option<(&'a Leaf, &'a Place, &'a Characteristic)> {
        let found = self.standing.index.leaf(leaf)?;
        let plan = self.standing.plan;
        Some((found, found.place(plan), found.characteristic(plan)))
    }

    fn scale(&self, look: &Characteristic) -> Option<&'a GaugedScale> {
        match self.standing.plan.scale(&look.scale)? {
            Scale::Gauged(scale) => Some(scale),
            _ => None,
        }
    }

    /// Every kind of size in strip-down order.
    pub fn kinds(&self) -> Vec<Kind> {
        let leaves = self.standing.index.leaves().iter().enumerate();
        let firsts = leaves.filter(|(_, leaf)| leaf.gauged && leaf.position == 0);
        firsts
            .map(|(number, leaf)| {
                let place = leaf.place(self.standing.plan);
                Kind {
                    first: LeafId(number),
                    positions: place.positions.len(),
                    stride: place.looks.len(),
                }
            })
            .collect()
    }

    /// The kind that a leaf is of.
    pub fn kind_of(&self, leaf: LeafId) -> Option<Kind> {
        let mut kinds = self.kinds().into_iter();
        kinds.find(|kind| { kind.leaves() }.any(|of| of == leaf))
    }

    /// How many positions of a kind have been measured.
    fn measured(&self, kind: Kind) -> usize {
        let read = |leaf: &LeafId| {
            self.standing.readings[leaf.0]
                .keys()
                .any(|(as_new, ..)| *as_new == self.as_new)
        };
        kind.leaves().filter(read).count()
    }

    /// How many sizes have been measured, and how many are asked for.
    pub fn progress(&self) -> (usize, usize) {
        let kinds = self.kinds();
        let done = kinds.iter().map(|kind| self.measured(*kind)).sum();
        (done, kinds.iter().map(|kind| kind.positions).sum())
    }

    /// The kinds by section, the chosen one marked; `marks` are those of [`Marks`].
    pub fn list(&self, chosen: Option<LeafId>, marks: &[Option<Verdict>]) -> String {
        let mut html = Html::new();
        let mut section = None;
        for (number, kind) in self.kinds().into_iter().enumerate() {
            let Some((leaf, place, look)) = self.leaf(kind.first) else {
                continue;
            };
            if section != Some(leaf.section) {
                section = Some(leaf.section);
                let name = self
                    .words
                    .section_name(&self.standing.plan.sections[leaf.section]);
                html.el("h2 class=\"kinds__section\"", name);
            }
            let (done, all) = (self.measured(kind), kind.positions);
            let current = if chosen == Some(kind.first) {
                "true"
            } else {
                "false"
            };
            html.with(
                "button type=\"button\" class=\"kinds__one\"",
                &[
                    ("data-kind", &kind.first.0.to_string()),
                    ("aria-current", current),
                ],
            );
            html.el(
                "span class=\"kinds__name\"",
                &self.words.row_name(place, look),
            );
            let mark = self.mark(marks.get(number).copied().flatten());
            html.el("span class=\"kinds__mark\"", mark);
            html.el("span class=\"kinds__done num\"", &format!("{done}/{all}"));
            html.close("button");
        }
        html.done()
    }

    /// What is said of a kind in the list; nothing where all is well, or to who measures blind.
    fn mark(&self, worst: Option<Verdict>) -> &'static str {
        match worst {
            _ if self.blind => "",
            Some(Verdict::Beyond) => self.words.gauging.beyond,
            Some(Verdict::CannotSay) => self.words.gauging.cannot_say_short,
            Some(Verdict::Within) | None => "",
        }
    }

    /// What a kind is called: "Liner · bore diameter".
    pub fn title(&self, kind: Kind) -> String {
        let named = |(_, place, look)| {
            let look = self.words.characteristic_name(look);
            [self.words.place_name(place), " · ", look].concat()
        };
        self.leaf(kind.first).map(named).unwrap_or_default()
    }

    /// How it is measured.
    pub fn hint(&self, kind: Kind) -> &'static str {
        let hint = |(_, place, look)| self.words.look_for(place, look);
        self.leaf(kind.first).and_then(hint).unwrap_or_default()
    }

    /// The spots of a kind's grid in the order of typing: the plan's, and the heights read beyond them.
    pub fn spots(&self, kind: Kind) -> Vec<Spot> {
        let Some(scale) = self
            .leaf(kind.first)
            .and_then(|(.., look)| self.scale(look))
        else {
            return Vec::new();
        };
        let stations = self.stations(kind, scale);
        let or_none = |all: &[SpotId]| -> Vec<Option<SpotId>> {
            if all.is_empty() {
                vec![None]
            } else {
                all.iter().cloned().map(Some).collect()
            }
        };
        let axes = or_none(&scale.axes);
        or_none(&stations)
            .into_iter()
            .flat_map(|station| {
                let station = &station;
                let spots = axes.iter().map(move |axis| Spot {
                    station: station.clone(),
                    axis: axis.clone(),
                });
                spots.collect::<Vec<_>>()
            })
            .collect()
    }

    /// The plan's heights, then those beyond them that were read somewhere.
    fn stations(&self, kind: Kind, scale: &GaugedScale) -> Vec<SpotId> {
        let mut stations = scale.stations.clone();
        let read = kind.leaves().flat_map(|leaf| {
            let spots = self.standing.readings[leaf.0].keys();
            spots.filter_map(|(_, spot, _)| spot.station.clone())
        });
        let mut more: Vec<SpotId> = Vec::new();
        for station in read {
            if !stations.contains(&station) && !more.contains(&station) {
                let place = more.partition_point(|known| *known < station);
                more.insert(place, station);
            }
        }
        stations.extend(more);
        stations
    }

    /// The boxes of a kind, front to rear; `spots` is the grid, which may have a height more than was read.
    pub fn boxes(&self, kind: Kind, spots: &[Spot]) -> String {
        let mut html = Html::new();
        html.open(if spots.iter().any(|spot| spot.axis.is_some()) {
            "div class=\"gauged gauged--axes\""
        } else {
            "div class=\"gauged\""
        });
        for leaf in kind.leaves() {
            self.part(&mut html, leaf, spots);
        }
        html.close("div");
        html.done()
    }

    /// What a part is called beside the others of its kind: "cylinder 1".
    pub(crate) fn part_name(&self, leaf: LeafId) -> String {
        let Some((at, place, _)) = self.leaf(leaf) else {
            return String::new();
        };
        let position = &place.positions[at.position];
        if position.column.is_empty() {
            self.words.position_name(place, position)
        } else {
            self.words.column(place.axis, &position.column)
        }
    }

    fn part(&self, html: &mut Html, leaf: LeafId, spots: &[Spot]) {
        html.open("section class=\"gaugebox\"");
        let name = self.part_name(leaf);
        html.el("h3 class=\"gaugebox__name\"", &capitalised(&name));
        self.grid(html, leaf, spots);
        html.with("div class=\"gaugebox__found\"", &[("id", &found_id(leaf))]);
        html.markup(&self.found(leaf)).close("div");
        html.close("section");
    }

    fn grid(&self, html: &mut Html, leaf: LeafId, spots: &[Spot]) {
        let mut axes: Vec<&SpotId> = Vec::new();
        for axis in spots.iter().filter_map(|spot| spot.axis.as_ref()) {
            if !axes.contains(&axis) {
                axes.push(axis);
            }
        }
        html.open("table class=\"gaugebox__grid\"");
        if !axes.is_empty() {
            html.open("thead").open("tr");
            if spots.iter().any(|spot| spot.station.is_some()) {
                html.open("td").close("td");
            }
            for axis in &axes {
                html.el("th scope=\"col\"", &self.words.spot_name(axis));
            }
            html.close("tr").close("thead");
        }
        html.open("tbody");
        for row in spots.chunks(axes.len().max(1)) {
            html.open("tr");
            if let Some(station) = row.first().and_then(|spot| spot.station.as_ref()) {
                html.el("th scope=\"row\"", &self.words.spot_name(station));
            }
            for spot in row {
                html.open("td");
                self.field(html, leaf, spot);
                html.close("td");
            }
            html.close("tr");
        }
        html.close("tbody").close("table");
    }

    fn field(&self, html: &mut Html, leaf: LeafId, spot: &Spot) {
        let steps = [&spot.station, &spot.axis];
        let [station, axis] = steps.map(|step| step.as_ref().map_or("", SpotId::as_str));
        let (plan, index) = (self.standing.plan, self.standing.index);
        let name = self.words.leaf(plan, index, leaf).unwrap_or_default();
        let label = match self.words.spot(spot) {
            whole if whole.is_empty() => name,
            spot => [&name, ", ", &spot].concat(),
        };
        let mine = self
            .reading(leaf, spot, true)
            .map(|reading| self.typed(reading));
        let other = self.reading(leaf, spot, false).filter(|_| !self.blind);
        let other = other.map(|reading| self.typed(reading)).unwrap_or_default();
        html.with(
            "input class=\"gaugebox__read num\" type=\"text\" inputmode=\"decimal\" autocomplete=\"off\" enterkeyhint=\"next\"",
            &[
                ("id", &field_id(leaf, spot)),
                ("data-leaf", &leaf.0.to_string()),
                ("data-station", station),
                ("data-axis", axis),
                ("aria-label", &label),
                ("value", &mine.unwrap_or_default()),
                ("placeholder", &other),
            ],
        );
    }

    /// The reading of a spot that holds: this rater's, or another's.
    pub fn reading(&self, leaf: LeafId, spot: &Spot, mine: bool) -> Option<&'a Reading> {
        let readings = self.standing.readings.get(leaf.0)?.iter();
        let mut here = readings.filter(|((as_new, at, rater), _)| {
            *as_new == self.as_new && *at == spot && (*rater == self.rater) == mine
        });
        here.find_map(|(_, entry)| match &entry.body {
            ringland_card::Body::Reading { reading } => Some(&**reading),
            _ => None,
        })
    }

    /// The figures of a reading as they were typed.
    fn typed(&self, reading: &Reading) -> String {
        let figures = reading.values.iter();
        let figures: Vec<String> = figures
            .map(|figure| self.words.numbers.as_typed(figure.as_str()))
            .collect();
        figures.join(" ")
    }

    /// The unit that a kind is read in: that of its last reading, else the sheet's, else the reader's own.
    pub fn unit(&self, kind: Kind) -> Unit {
        let last = kind
            .leaves()
            .flat_map(|leaf| self.standing.readings[leaf.0].values());
        let last = last.max_by_key(|entry| entry.order());
        if let Some(ringland_card::Body::Reading { reading }) = last.map(|entry| &entry.body) {
            return reading.unit;
        }
        let mass = self
            .leaf(kind.first)
            .and_then(|(.., look)| self.scale(look))
            .is_some_and(|scale| scale.quantity == ringland_card::gauging::Quantity::Mass);
        match self.size(kind) {
            Some(size) => size.unit,
            None if mass => Unit::G,
            None => size_unit(self.units),
        }
    }

    /// The sheet's row of a kind, where it is of the quantity that is measured.
    pub fn size(&self, kind: Kind) -> Option<&'a Size> {
        let (_, place, look) = self.leaf(kind.first)?;
        let quantity = self.scale(look)?.quantity;
        let sheet = self.standing.size_sheet()?;
        sheet.size_in(quantity, &place.id, &look.id)
    }

    /// What the sheet has for a kind that does not fit it.
    fn misfit(&self, kind: Kind) -> Option<String> {
        let (_, place, look) = self.leaf(kind.first)?;
        let size = self.standing.size_sheet()?.size(&place.id, &look.id)?;
        let why = size.check_on(self.scale(look)?).err()?;
        Some(self.words.size_error(&why))
    }

    /// New sizes and limits of a kind in a line; what is not known is said to be so.
    pub fn limits(&self, kind: Kind) -> String {
        let g = &self.words.gauging;
        let mut html = Html::new();
        let misfit = self.misfit(kind);
        if let Some(misfit) = &misfit {
            html.el("strong class=\"limit\"", misfit).text(" ");
        }
        let Some(size) = self.size(kind).filter(|size| !size.is_open()) else {
            if misfit.is_some() {
                return html.done();
            }
            html.el(
                "span",
                if self.standing.sizes.is_some() {
                    g.note_no_limit
                } else {
                    g.no_sheet
                },
            );
            return html.done();
        };
        for field in SizeField::ALL {
            if let Some(figure) = size.field(field) {
                let figure = self.words.numbers.as_typed(figure.as_str());
                html.open("span class=\"limit\"");
                html.el("span class=\"limit__name\"", self.words.size_field(field));
                html.text(" ");
                html.el(
                    "b class=\"num\"",
                    &[&figure, NBSP, size.unit.sign()].concat(),
                );
                html.close("span").text(" ");
            }
        }
        html.done()
    }

    /// Plots of a kind: its sizes along the engine, and the profile of each part that has heights.
    pub fn plots(&self, kind: Kind) -> String {
        if self.blind {
            return String::new();
        }
        let (unit, title) = (self.unit(kind), self.title(kind));
        let found: Vec<Option<Finding>> = kind
            .leaves()
            .map(|leaf| finding(self.standing, leaf))
            .collect();
        let heads = kind.leaves().map(|leaf| {
            let column = self
                .leaf(leaf)
                .map(|(at, place, _)| &place.positions[at.position].column);
            let column = column.map_or("", String::as_str);
            self.words.column_head(column).to_owned()
        });
        let row: Vec<Along<'_>> = heads
            .zip(&found)
            .map(|(head, finding)| Along {
                head,
                finding: finding.as_ref(),
            })
            .collect();
        let mut html = Html::new();
        if row.len() > 1
            && let Some(plot) = along(&title, &row, unit, self.words)
        {
            html.markup(&plot);
        }
        for finding in found.iter().flatten() {
            let (plan, index) = (self.standing.plan, self.standing.index);
            let name = self.words.leaf(plan, index, finding.leaf);
            let name = name.unwrap_or_default();
            if let Some(plot) = profile(&name, finding, unit, self.words) {
                html.open("figure class=\"gauged__profile\"");
                html.el("figcaption class=\"fine\"", &name);
                html.markup(&plot).close("figure");
            }
        }
        html.done()
    }

    /// What the readings of a leaf say, in a few lines.
    pub fn found(&self, leaf: LeafId) -> String {
        if self.blind && self.others_only(leaf) {
            return String::new();
        }
        match finding(self.standing, leaf) {
            Some(found) => self.found_of(&found),
            None => String::new(),
        }
    }

    /// Whether a leaf was read by others and not by this rater.
    fn others_only(&self, leaf: LeafId) -> bool {
        let mut raters = self.standing.readings[leaf.0]
            .keys()
            .map(|(.., rater)| *rater);
        raters.all(|rater| rater != self.rater)
    }

    fn found_of(&self, found: &Finding) -> String {
        let (g, numbers) = (&self.words.gauging, self.words.numbers);
        let unit = self.unit_of(found);
        let mut html = Html::new();
        let size = numbers.measured(&found.size, unit);
        let spot = self.words.spot(&found.at);
        html.open("p class=\"found__size num\"").text(&size);
        if !spot.is_empty() {
            html.el("span class=\"found__at\"", &spot);
        }
        html.close("p");
        html.open("p class=\"found__says\"");
        if let Some(share) = &found.share {
            let class = ramp::class(ringland_assess::look::share_score(share).score);
            let said = numbers.share_with(share.si, expanded(share).unwrap_or(f64::NAN));
            html.with("span", &[("class", &["found__share num ", class].concat())]);
            html.text(&said).close("span");
        } else if let Some(wear) = &found.wear {
            let said = numbers.measured(wear, unit);
            html.el(
                "span class=\"found__wear\"",
                &[g.wear_by, " ", &said].concat(),
            );
        }
        let verdict = found.verdict();
        html.el(verdict_class(verdict), self.words.gauging_verdict(verdict));
        html.close("p");
        for (name, shape) in [
            (g.round_by, &found.out_of_round),
            (g.taper_by, &found.taper),
        ] {
            if let Some(shape) = shape {
                self.shape(&mut html, name, shape, unit);
            }
        }
        for note in &found.notes {
            // What the whole engine lacks is said once above, not beside each part.
            if !matches!(note, Note::NoLimit | Note::NoNewSize) {
                html.el(
                    "p class=\"found__note\"",
                    &self.words.gauging_note(*note, unit),
                );
            }
        }
        html.done()
    }

    fn shape(&self, html: &mut Html, name: &str, shape: &ShapeFigure, unit: Unit) {
        let said = self.words.numbers.measured(&shape.figure, unit);
        html.open("p class=\"found__shape\"");
        html.text(name).text(" ").el("span class=\"num\"", &said);
        if let Some(held) = &shape.held {
            let verdict = Some(held.conformity.verdict);
            html.text(" ");
            html.el(verdict_class(verdict), self.words.gauging_verdict(verdict));
        }
        html.close("p");
    }

    /// The unit that a finding is told in: that of its kind.
    pub(crate) fn unit_of(&self, found: &Finding) -> Unit {
        match self.kind_of(found.leaf) {
            Some(kind) => self.unit(kind),
            None => size_unit(self.units),
        }
    }
}

pub(crate) fn verdict_class(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::Within) => "span class=\"verdict verdict--within\"",
        Some(Verdict::Beyond) => "span class=\"verdict verdict--beyond\"",
        Some(Verdict::CannotSay) => "span class=\"verdict verdict--unsaid\"",
        None => "span class=\"verdict verdict--none\"",
    }
}
