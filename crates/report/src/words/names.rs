//! What things of a plan are called, and what was said of them, put together from words and terms.
//!
//! A label of the plan's author always wins over the catalogue; an id with neither is shown as it is.

use ringland_card::{
    Areas, Cause, LevelId, Look, Plan, PlanIndex, Scale, ScaleId, StateId,
    layout::{Arrangement, Camshaft, Follower, Layout, Liner},
    plan::{
        Axis, CapRule, Characteristic, LeafId, Part, Place, Position, Regime, Section, TradeFigure,
    },
    scale::Method,
};

use super::{Words, terms::PlaceTerm};

/// Between a place and what is looked at there, in one name.
const DOT: &str = " · ";

/// The text with a capital first letter.
pub fn capitalised(text: &str) -> String {
    first_letter(text, |c| c.to_uppercase().collect())
}

/// The text with a small first letter, for the middle of a sentence.
pub fn lowered(text: &str) -> String {
    first_letter(text, |c| c.to_lowercase().collect())
}

fn first_letter(text: &str, change: impl Fn(char) -> String) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => change(first) + letters.as_str(),
        None => String::new(),
    }
}

/// What a place is: the first step of its id.
fn root(place: &str) -> &str {
    place.split('/').next().unwrap_or(place)
}

impl Words {
    /// Any term of the built-in plan by its id: sections first, then parts, places, characteristics,
    /// scales, levels, states, cap rules. The readers below know which kind they ask for.
    pub fn term(&self, id: &str) -> Option<&'static str> {
        let terms = &self.terms;
        let plain = terms
            .sections
            .get(id)
            .or_else(|| terms.parts.get(id))
            .copied();
        let place = || terms.places.get(id).map(|term| term.row);
        let look = || terms.looks.get(id).map(|term| term.name);
        let rest = || {
            let tables = [
                terms.scales.get(id),
                terms.levels.get(id),
                terms.states.get(id),
                terms.caps.get(id),
            ];
            tables.into_iter().flatten().next().copied()
        };
        plain.or_else(place).or_else(look).or_else(rest)
    }

    /// A section: "Camshaft".
    pub fn section_name<'a>(&self, section: &'a Section) -> &'a str {
        let term = self.terms.sections.get(section.id.as_str());
        named(section.label.as_ref(), term.copied(), section.id.as_str())
    }

    /// A part: "Rocker arms".
    pub fn part_name<'a>(&self, part: &'a Part) -> &'a str {
        let term = self.terms.parts.get(part.id.as_str());
        named(part.label.as_ref(), term.copied(), part.id.as_str())
    }

    /// A place as the head of a row: "Lobe, exhaust".
    pub fn place_name<'a>(&self, place: &'a Place) -> &'a str {
        let term = self.place_term(place.id.as_str(), place.axis);
        named(
            place.label.as_ref(),
            term.map(|term| term.row),
            place.id.as_str(),
        )
    }

    /// A characteristic by its whole name: "Polish at the top turnaround, thrust side".
    pub fn characteristic_name<'a>(&self, look: &'a Characteristic) -> &'a str {
        let term = self.terms.looks.get(look.id.as_str());
        named(
            look.label.as_ref(),
            term.map(|term| term.name),
            look.id.as_str(),
        )
    }

    /// A characteristic by its short name: "polish, top thrust".
    pub fn characteristic_short<'a>(&self, look: &'a Characteristic) -> &'a str {
        let term = self.terms.looks.get(look.id.as_str());
        named(
            look.label.as_ref(),
            term.map(|term| term.short),
            look.id.as_str(),
        )
    }

    /// What to look for at a characteristic of a place, in a line; nothing where the plan's author
    /// gave the characteristic a name of their own.
    pub fn look_for(&self, place: &Place, look: &Characteristic) -> Option<&'static str> {
        if look.label.is_some() {
            return None;
        }
        let (place, id) = (place.id.as_str(), look.id.as_str());
        let hints = &self.terms.hints;
        let own = hints
            .get(&format!("{place}.{id}"))
            .or_else(|| hints.get(&format!("{}.{id}", root(place))));
        match own {
            Some(hint) => Some(hint),
            None => self.terms.looks.get(id).map(|term| term.hint),
        }
    }

    /// The head of a row of the wear map: "Lobe, exhaust · wear".
    pub fn row_name(&self, place: &Place, look: &Characteristic) -> String {
        let look = self.characteristic_short(look);
        [self.place_name(place), look].join(DOT)
    }

    /// A column in the middle of a sentence: "cylinder 4", "main 5", "front"; nothing for a single
    /// position.
    pub fn column(&self, axis: Axis, column: &str) -> String {
        let names = &self.names;
        match axis {
            Axis::Cylinder => names.cylinder(column),
            Axis::Main => names.main(column),
            Axis::CamBearing => names.cam_bearing(column),
            Axis::Each if is_number(column) => names.number(column),
            Axis::Each => self.column_head(column).to_owned(),
            Axis::Single => String::new(),
        }
    }

    /// The head of a column of the wear map: "3", "L2", "front", "intake cam, left".
    pub fn column_head<'a>(&self, column: &'a str) -> &'a str {
        match self.terms.columns.get(column) {
            Some(term) => term,
            None => column,
        }
    }

    /// A position of a place: "Cylinder 3, top ring", "Main 5, lower shell", "Seal land, rear",
    /// "Rod journal 2", "Oil pump".
    pub fn position_name(&self, place: &Place, position: &Position) -> String {
        let column = &position.column;
        match (&place.label, self.place_term(place.id.as_str(), place.axis)) {
            (Some(label), _) => self.at_column(label, column, place.axis),
            (None, Some(term)) => self.at_column(term.name, column, place.axis),
            (None, None) => self.at_column(place.id.as_str(), column, place.axis),
        }
    }

    fn at_column(&self, name: &str, column: &str, axis: Axis) -> String {
        let text = match axis {
            Axis::Cylinder | Axis::Main | Axis::CamBearing => {
                [&self.column(axis, column), name].join(", ")
            }
            Axis::Each if is_number(column) => [name, column].join(" "),
            Axis::Each => [name, self.column_head(column)].join(", "),
            Axis::Single => name.to_owned(),
        };
        capitalised(&text)
    }

    /// The position of a leaf: see [`Words::position_name`].
    pub fn position(&self, plan: &Plan, index: &PlanIndex, leaf: LeafId) -> Option<String> {
        let leaf = index.leaf(leaf)?;
        Some(self.position_name(leaf.place(plan), leaf.position(plan)))
    }

    /// A leaf: "Cylinder 3, top ring · face wear".
    pub fn leaf(&self, plan: &Plan, index: &PlanIndex, leaf: LeafId) -> Option<String> {
        let position = self.position(plan, index, leaf)?;
        let look = self.characteristic_short(index.leaf(leaf)?.characteristic(plan));
        Some([position.as_str(), look].join(DOT))
    }

    /// A node of the roll-up by its path, as in the command's output: the section, its part, a
    /// position, a characteristic; the engine for an empty path. A path that the plan lacks is shown
    /// as it is.
    pub fn node(&self, plan: &Plan, path: &str) -> String {
        if path.is_empty() || path == "engine" {
            return self.card.engine.to_owned();
        }
        self.find_node(plan, path)
            .unwrap_or_else(|| path.to_owned())
    }

    fn find_node(&self, plan: &Plan, path: &str) -> Option<String> {
        let (section, rest) = step(path);
        let section = plan
            .sections
            .iter()
            .find(|known| known.id.as_str() == section)?;
        let Some(rest) = rest else {
            return Some(self.section_name(section).to_owned());
        };
        let (part, rest) = step(rest);
        let part = section
            .parts
            .iter()
            .find(|known| known.id.as_str() == part)?;
        let Some(rest) = rest else {
            return Some(self.part_name(part).to_owned());
        };
        part.places.iter().find_map(|place| {
            place.positions.iter().find_map(|position| {
                let end = rest.strip_prefix(position.id.as_str())?;
                let name = self.position_name(place, position);
                match end.strip_prefix('/') {
                    None => end.is_empty().then_some(name),
                    Some(end) => {
                        let look = place.looks.iter().find(|look| look.id.as_str() == end)?;
                        Some([name.as_str(), self.characteristic_short(look)].join(DOT))
                    }
                }
            })
        })
    }

    fn place_term(&self, id: &str, axis: Axis) -> Option<&PlaceTerm> {
        let places = &self.terms.places;
        if axis == Axis::Main
            && let Some(term) = places.get(&format!("{id}@main"))
        {
            return Some(term);
        }
        places.get(id)
    }

    /// A level of an area scale: "Heavy carbon".
    pub fn level<'a>(&self, scale: &'a Scale, id: &'a LevelId) -> &'a str {
        let id = id.as_str();
        let term = self.terms.levels.get(id).copied();
        named(scale.label_of(id), term, id)
    }

    /// A state: "Cold-stuck".
    pub fn state<'a>(&self, scale: &'a Scale, id: &'a StateId) -> &'a str {
        let id = id.as_str();
        let term = self.terms.states.get(id).copied();
        named(scale.label_of(id), term, id)
    }

    /// A scale: "Polished area".
    pub fn scale<'a>(&self, id: &'a str) -> &'a str {
        named(None, self.terms.scales.get(id).copied(), id)
    }

    /// A scale by the name that its author gave it, else as [`Words::scale`].
    pub fn scale_name<'a>(&self, id: &'a ScaleId, scale: Option<&'a Scale>) -> &'a str {
        let own = scale.and_then(Scale::name);
        own.unwrap_or_else(|| self.scale(id.as_str()))
    }

    /// How something is rated: "Wear grade".
    pub fn method(&self, method: Method) -> &'static str {
        let methods = &self.terms.methods;
        match method {
            Method::Grade => methods.grade,
            Method::Area => methods.area,
            Method::MeritArea => methods.merit_area,
            Method::Extent => methods.extent,
            Method::Count => methods.count,
            Method::State => methods.state,
            Method::Measured => methods.measured,
            Method::Gauged => methods.gauged,
        }
    }

    /// A lubrication regime.
    pub fn regime(&self, regime: Regime) -> &'static str {
        let regimes = &self.terms.regimes;
        match regime {
            Regime::Boundary => regimes.boundary,
            Regime::Mixed => regimes.mixed,
            Regime::FullFilm => regimes.full_film,
            Regime::None => regimes.none,
        }
    }

    /// What a cap rule is about: "Pitted lobe".
    pub fn cap_name<'a>(&self, rule: &'a CapRule) -> &'a str {
        named(
            rule.label.as_ref(),
            self.terms.caps.get(rule.id.as_str()).copied(),
            rule.id.as_str(),
        )
    }

    /// A cap rule in full: "Pitted area over 10 % in Lobes: Camshaft at most 5.0".
    pub fn cap_rule(&self, plan: &Plan, rule: &CapRule) -> String {
        let numbers = self.numbers;
        let look = match plan.cap_look(rule) {
            Some(look) => self.characteristic_name(look).to_owned(),
            None => self.look_name(plan, rule.characteristic.as_str()),
        };
        let when = self.trigger(plan, &rule.when);
        let within = self.node(plan, &rule.within);
        let node = self.node(plan, &rule.node);
        self.names
            .cap_rule(&look, &when, &within, &node, &numbers.score(rule.cap))
    }

    /// A cause as a saying of the history: "Cause: dirt", or of everything in the position.
    pub fn cause_said(&self, cause: Cause, whole_position: bool) -> String {
        let cause = lowered(self.cause(cause));
        if whole_position {
            self.pad.cause_of_position(&cause)
        } else {
            self.pad.cause_kept(&cause)
        }
    }

    /// A trade figure: "Top groove fill".
    pub fn trade_figure(&self, figure: TradeFigure) -> &'static str {
        let trade = &self.trade;
        match figure {
            TradeFigure::WeightedDemerits => trade.weighted_demerits,
            TradeFigure::TopGrooveFill => trade.top_groove_fill,
            TradeFigure::TopLandHeavyCarbon => trade.top_land_heavy_carbon,
            TradeFigure::SludgeMerit => trade.sludge_merit,
            TradeFigure::VarnishMerit => trade.varnish_merit,
            TradeFigure::RingDistress => trade.ring_distress,
        }
    }

    /// An engine's layout in a word or two: "inline 6", "V8".
    pub fn layout(&self, layout: &Layout) -> String {
        match layout.arrangement {
            Arrangement::Inline => self.facts.inline_of(layout.cylinders),
            Arrangement::Vee => self.facts.vee_of(layout.cylinders),
        }
    }

    /// An engine's layout whole: "inline 6, overhead camshaft, roller followers, …".
    pub fn layout_whole(&self, layout: &Layout) -> String {
        let facts = &self.facts;
        let camshaft = match layout.camshaft {
            Camshaft::Overhead => facts.said_overhead,
            Camshaft::DoubleOverhead => facts.said_double_overhead,
            Camshaft::InBlock => facts.said_in_block,
        };
        let follower = match layout.follower {
            Follower::Roller => facts.said_roller,
            Follower::Sliding => facts.said_sliding,
        };
        let liner = match layout.liner {
            Liner::Wet => facts.said_wet,
            Liner::Dry => facts.said_dry,
            Liner::ParentBore => facts.said_parent_bore,
        };
        let where_so = |is: bool, said: &str| is.then(|| said.to_owned());
        let said = [
            Some(self.layout(layout)),
            Some(camshaft.to_owned()),
            Some(follower.to_owned()),
            Some(facts.said_valves(layout.intake_valves, layout.exhaust_valves)),
            where_so(layout.injector_lobes, facts.said_injector),
            where_so(layout.brake_lobes, facts.said_brake),
            Some(liner.to_owned()),
            Some(facts.said_rings(layout.compression_rings)),
            Some(facts.said_mains(layout.mains)),
            where_so(layout.single_cylinder_heads, facts.said_single_heads),
            Some(facts.said_turbos(layout.turbochargers)),
        ];
        said.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// What was seen: "light to medium", "12 %", "heavy carbon 28 %, clean 72 %", "cold-stuck",
    /// "not inspected: out of reach". The scale gives areas their order, worst first.
    pub fn look(&self, look: &Look, scale: &Scale) -> String {
        match look {
            Look::Grade(grade) => lowered(&self.grade(*grade)),
            Look::Areas(areas) => self.areas(areas, scale),
            Look::Percent(percent) => self.numbers.percent(*percent),
            Look::Count(count) => self.numbers.short(*count as f64, 0),
            Look::State(state) => lowered(self.state(scale, state)),
            Look::NotInspected(why) => self.names.not_inspected(&lowered(self.reason(*why))),
        }
    }

    fn areas(&self, areas: &Areas, scale: &Scale) -> String {
        let mut order = scale.levels();
        if order.is_empty() {
            order = areas.shares.keys().collect();
        }
        let share = |name: &str, percent: f64| {
            [&lowered(name), self.numbers.percent(percent).as_str()].join(" ")
        };
        let mut said: Vec<String> = order
            .into_iter()
            .filter_map(|level| Some((level, areas.shares.get(level).copied()?)))
            .filter(|(_, percent)| *percent > 0.0)
            .map(|(level, percent)| share(self.level(scale, level), percent))
            .collect();
        if said.is_empty() {
            return self.names.all_clean.to_owned();
        }
        // Shares of 36 sectors miss 100 by rounding; what would read "0 %" is nothing.
        let clean = areas.clean();
        if clean >= 0.05 {
            said.push(share(self.terms.levels.clean, clean));
        }
        said.join(", ")
    }
}

/// The label of the plan's author, else the catalogue's term, else the id.
fn named<'a>(label: Option<&'a String>, term: Option<&'static str>, id: &'a str) -> &'a str {
    match (label, term) {
        (Some(label), _) => label,
        (None, Some(term)) => term,
        (None, None) => id,
    }
}

/// The first step of a path, and the rest.
fn step(path: &str) -> (&str, Option<&str>) {
    match path.split_once('/') {
        Some((first, rest)) => (first, Some(rest)),
        None => (path, None),
    }
}

/// Whether a column is a plain number.
fn is_number(column: &str) -> bool {
    !column.is_empty() && column.bytes().all(|c| c.is_ascii_digit())
}
