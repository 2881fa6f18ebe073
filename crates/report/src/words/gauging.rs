//! Words of Gauging: what is read with a gauge, and what it is held against.

use ringland_assess::gauging::{Basis, Remaining, Source, Verdict, finding::Note};
use ringland_card::{
    Plan,
    file::{MOST_PIECE_BYTES, SIZES_VERSION, SizesFileError},
    gauging::{
        COLDEST_C, Decimal, EXTRA_STATIONS, Gauge, GaugeError, HOTTEST_C, LARGEST_K,
        LONGEST_GAUGE_NAME, MOST_REPEATS, MOST_SIZES, Makes, Material, Quantity, Reading,
        ReadingError, SizeError, SizeField, Spot, Unit, Wears,
    },
    ids::SpotId,
};

use super::{Words, catalogue::words, lowered};

words! {
    /// The Gauging screen and what the Card says of measurements.
    Gauging {
        title = "Gauging";
        lead = "Type what the gauge shows, Enter after each: the cursor goes where the hand goes next";
        measured_n(done: usize, all: usize) = "{done} of {all} measured";
        nothing_asked = "This plan measures nothing";
        nothing_asked_hint = "Move the card to a plan with sizes in it, or add sizes to a plan of your own";
        parts = "Parts";
        position = "Position";
        station = "Height";
        axis = "Axis";
        reading = "Reading";
        new_part = "As it went in";
        worn_part = "As it came out";
        when = "Which state";
        unit = "Unit";
        gauge = "Gauge";
        no_gauge = "No gauge named";
        new_gauge = "New gauge…";
        gauge_name = "Name and number";
        resolution = "Smallest step";
        expanded = "Expanded uncertainty U";
        coverage = "Coverage factor k";
        calibrated = "Last calibrated";
        material = "Made of";
        no_material = "Does not matter";
        keep_gauge = "Keep this gauge";
        warmth = "Part and gauge at";
        next = "Next spot";
        order = "Order of typing";
        by_part = "One part to its end";
        by_row = "One spot along the engine";
        more_heights = "One height more";
        keep = "Keep";
        kept(what: &str) = "Kept: {what}";
        clear = "Take out";
        sheet = "Size sheet";
        no_sheet = "No size sheet";
        no_sheet_hint = "New sizes and wear limits are the engine maker's. Type them in from the manual, or open a sheet; nothing is guessed";
        choose_sheet = "Choose a sheet…";
        new_sheet = "New sheet";
        open_sheet = "Open a sheet…";
        save_sheet = "Save as a file";
        use_sheet = "Hold the engine against it";
        sheet_used(name: &str) = "Held against “{name}”";
        sheet_name = "Name of the sheet";
        sheet_source = "Where the figures come from";
        sheet_source_hint = "The manual, its issue and page";
        break_in_distance = "Break-in until";
        of_thumb = "Public rules of thumb";
        of_thumb_hint = "From public repair manuals for engines in general, not your engine maker's limits. Each is worked out from the new size that you typed";
        fill_of_thumb = "Fill missing limits by rules of thumb";
        new_low = "new, least";
        new_high = "new, most";
        limit_low = "limit, least";
        limit_high = "limit, most";
        out_of_round = "out of round, most";
        taper = "taper, most";
        break_in = "wear while breaking in";
        within = "within";
        beyond = "beyond";
        cannot_say = "cannot say with this gauge";
        cannot_say_short = "cannot say";
        no_verdict = "no limit";
        verdict = "Verdict";
        probability(p: &str) = "{p} that it keeps within the limit";
        size = "Size";
        wear_by = "Wear";
        share = "Share of the allowance used";
        round_by = "Out of round";
        taper_by = "Taper";
        limit = "Limit";
        as_new = "As new";
        as_new_read = "as it was read before it ran";
        rate = "Wear rate";
        per_distance(rate: &str, per: &str) = "{rate} per {per}";
        per_1000_h(rate: &str) = "{rate} per 1,000 h";
        per_fuel(rate: &str, per: &str) = "{rate} per {per} of fuel";
        budget = "What its uncertainty is made of";
        component = "Component";
        standard_u = "Standard uncertainty";
        dof = "Degrees of freedom";
        sensitivity = "Sensitivity";
        contribution = "Contribution";
        expanded_95 = "Expanded, 95 %";
        left = "How much further";
        left_between(estimate: &str, low: &str, high: &str) = "{estimate} more, {low} to {high}";
        left_at_least(low: &str) = "at least {low} more";
        left_beyond(p: &str) = "already beyond its limit ({p})";
        left_open = "no end in sight: it has not worn";
        left_assumes = "95 % intervals. Assumes that it goes on wearing as it has, on the same duty and oil; the run is taken as exact";
        first_limit = "First limit of the engine";
        first_likely(position: &str, p: &str) = "{position} gets there first with {p}";
        working_out = "Working it out…";
        stop = "Stop";
        worst = "Worst share of allowance";
        cannot_say_list = "Cannot say with this gauge";
        beyond_list = "Beyond the limit";
        second_look = "Worth a second look";
        second_look_line(where_: &str, grade: &str, share: &str) = "{where_}: rated “{grade}”, and {share} of the allowance is used";
        second_look_worn(where_: &str, grade: &str, share: &str) = "{where_}: rated “{grade}”, and only {share} of the allowance is used";
        no_measurements = "Nothing was measured";
        section_lead = "Sizes at 20 °C where the warmth was read, with their expanded uncertainty (95 %)";
        note_no_gauge = "No gauge is named: only the last digit typed speaks for it";
        note_not_calibrated = "The gauge has no calibration: what it is off by is not in the uncertainty";
        note_not_corrected = "Not corrected for warmth: nobody read it";
        note_no_new = "No new size is known, so there is no wear to speak of";
        note_no_limit = "No wear limit is known";
        note_new_unread(n: usize) = "As it went in it was not read on {n} {n?spot:spots} that were read now, so that is not taken as its new size";
        note_unread(n: usize) = "{n} {n?spot:spots} of the grid not read";
        note_too_coarse(u: &str) = "The gauge is too coarse for this allowance: a standard uncertainty of {u} would be enough";
        source_reading = "Reading";
        source_other = "The other reading";
        source_repeats = "Scatter of the repeats";
        source_resolution = "Smallest step of the gauge";
        source_calibration = "Calibration of the gauge";
        source_as_new = "Size as new";
        source_bore = "Bore";
        source_journal = "Journal";
        source_wall(n: u8) = "Shell wall {n}";
        source_face = "Face wear";
        source_part_c = "Temperature of the part";
        source_gauge_c = "Temperature of the gauge";
        source_c = "Temperature";
        source_part_alpha = "Expansion of the part";
        source_gauge_alpha = "Expansion of the gauge";
        source_break_in = "Wear while breaking in";
        spot_top = "top";
        spot_middle = "middle";
        spot_bottom = "bottom";
        spot_thrust = "thrust axis";
        spot_pin = "pin axis";
        spot_vertical = "vertical";
        spot_horizontal = "horizontal";
        spot_front = "front";
        spot_rear = "rear";
        spot_height = "height over the nose";
        spot_base = "base circle";
        spot_extra(n: usize) = "height {n} more";
        steel = "steel";
        iron = "cast iron";
        aluminium = "aluminium";
        slip_decimal(typed: &str, near: &str) = "{typed}? Its neighbours are near {near}. Did the decimal point slip?";
        slip_unit(typed: &str, unit: &str) = "{typed} looks like {unit}. Is the unit right?";
        slip_swapped(one: &str, other: &str) = "Here {one} is the larger one, elsewhere {other}. Were the axes swapped?";
        slip_far(typed: &str, near: &str) = "{typed} is far from {near}. Is it right?";
        slip_keep = "It is right, keep it";
        slip_again = "Type it again";
        paste = "Paste or import a table";
        paste_hint = "From a spreadsheet, or a CSV file: then say which column is what";
        paste_here = "Paste the table here";
        import_file = "Open a CSV file…";
        column_n(n: usize) = "Column {n}";
        column_ignore = "leave out";
        column_position = "position";
        column_look = "what is measured";
        column_station = "height";
        column_axis = "axis";
        column_value = "figure";
        first_line_names = "The first line has the names";
        import_take(n: usize) = "Take {n} {n?reading:readings}";
        import_bad(line: usize, why: &str) = "Line {line}: {why}";
        import_none = "No line could be read";
        import_no_position(text: &str) = "“{text}” is not a position that is measured";
        import_no_look(text: &str) = "“{text}” is not measured there";
        import_no_spot(text: &str) = "“{text}” is not on the grid";
        profile = "Profile along the bore";
        along = "Along the engine";
        over_distance = "Wear against distance";
        error_gauge_name(given: usize, most: usize) = "A gauge's name has 1 to {most} characters; this one has {given}";
        error_resolution(given: &str) = "The smallest step is {given}: it must be above 0";
        error_expanded(given: &str) = "The expanded uncertainty is {given}: it must be 0 or more";
        error_coverage(given: &str, most: &str) = "The coverage factor is {given}: allowed is 1 to {most}";
        error_not_gauged(at: &str) = "{at}: this is rated by eye, not read with a gauge";
        error_spot(at: &str, given: &str, allowed: &str) = "{at}: “{given}” is not on its grid. Allowed are {allowed}";
        error_unit(at: &str, given: &str) = "{at}: {given} does not measure this";
        error_repeats(at: &str, given: usize, most: usize) = "{at}: a reading has 1 to {most} figures; this one has {given}";
        error_warmth(at: &str, given: &str, low: &str, high: &str) = "{at}: {given} °C is not believed. Allowed is {low} to {high}";
        error_sheet_text(given: usize, most: usize) = "A sheet has a name, and texts of {most} characters at most; this one has {given}";
        error_sheet_many(given: usize, most: usize) = "A sheet has {most} sizes at most; this one has {given}";
        error_twice(of: &str) = "{of} stands twice";
        error_half(of: &str, field: &str) = "{of}: “{field}” is missing. A range has two ends";
        error_reversed(of: &str, low: &str, high: &str) = "{of}: the least, {low}, is above the most, {high}";
        error_inside_above(of: &str, field: &str, given: &str, bound: &str) = "{of}: “{field}” is {given}, which a new part may measure. It must be above {bound}";
        error_inside_below(of: &str, field: &str, given: &str, bound: &str) = "{of}: “{field}” is {given}, which a new part may measure. It must be below {bound}";
        error_side_larger(of: &str, field: &str) = "{of} grows with wear: “{field}” does not limit it";
        error_side_smaller(of: &str, field: &str) = "{of} shrinks with wear: “{field}” does not limit it";
        error_shape(of: &str, field: &str, given: &str) = "{of}: “{field}” is {given}. It must be above 0";
        error_break_in(of: &str, given: &str) = "{of}: {given} is no break-in. It must be 0 or more";
        error_size_unit(of: &str, given: &str, allowed: &str) = "{of}: the sheet has it in {given}; it is measured in {allowed}, so this size cannot be used";
        not_sizes = "This is not a size sheet: it does not say that it is one";
        sheet_altered = "This sheet was changed after it was saved: its digest does not match. Hold every figure against the manual";
        sheet_taken(name: &str) = "“{name}” is on this tablet";
        sheet_known(name: &str) = "“{name}” was on this tablet already";
        sheet_deleted(name: &str) = "“{name}” is deleted from this tablet; cards that use it keep it";
        sheet_saved(name: &str) = "“{name}” was saved";
        delete_sheet = "Delete from this tablet";
        back_to_readings = "Back to the readings";
        own_sheet(name: &str) = "{name}, on this card";
        choose_gauge = "Gauge for these readings";
        entry_gauge(name: &str, step: &str) = "Gauge: {name}, steps of {step}";
        entry_sizes(name: &str, n: usize) = "Held against the size sheet “{name}”, {n} {n?size:sizes}";
        entry_reading(where_: &str, spot: &str, said: &str) = "{where_}, {spot}: {said}";
        entry_new(said: &str) = "{said}, as it went in";
    }
}

impl Words {
    /// A height or an axis: "thrust axis"; the id itself where it is a user's own.
    pub fn spot_name(&self, id: &SpotId) -> String {
        let g = &self.gauging;
        match id.as_str() {
            "top" => g.spot_top.to_owned(),
            "middle" => g.spot_middle.to_owned(),
            "bottom" => g.spot_bottom.to_owned(),
            "thrust" => g.spot_thrust.to_owned(),
            "pin" => g.spot_pin.to_owned(),
            "vertical" => g.spot_vertical.to_owned(),
            "horizontal" => g.spot_horizontal.to_owned(),
            "front" => g.spot_front.to_owned(),
            "rear" => g.spot_rear.to_owned(),
            "height" => g.spot_height.to_owned(),
            "base_circle" => g.spot_base.to_owned(),
            id => match EXTRA_STATIONS.iter().position(|extra| *extra == id) {
                Some(number) => g.spot_extra(number + 1),
                None => id.replace('_', " "),
            },
        }
    }

    /// A spot on a grid: "top, thrust axis"; nothing where the part has one reading.
    pub fn spot(&self, spot: &Spot) -> String {
        let steps = [&spot.station, &spot.axis].into_iter().flatten();
        let steps: Vec<String> = steps.map(|id| self.spot_name(id)).collect();
        steps.join(", ")
    }

    /// What kind of quantity a size is.
    pub fn quantity(&self, quantity: Quantity) -> &'static str {
        match quantity {
            Quantity::Length => self.plans.length,
            Quantity::Mass => self.plans.mass,
        }
    }

    /// Which way a size goes with wear.
    pub fn wears(&self, wears: Wears) -> &'static str {
        match wears {
            Wears::Larger => self.plans.wears_larger,
            Wears::Smaller => self.plans.wears_smaller,
            Wears::Either => self.plans.wears_either,
        }
    }

    /// How readings make one size.
    pub fn makes(&self, makes: Makes) -> &'static str {
        match makes {
            Makes::Furthest => self.plans.makes_furthest,
            Makes::Difference => self.plans.makes_difference,
        }
    }

    /// A material.
    pub fn material(&self, material: Material) -> &'static str {
        match material {
            Material::Steel => self.gauging.steel,
            Material::Iron => self.gauging.iron,
            Material::Aluminium => self.gauging.aluminium,
        }
    }

    /// A verdict on a limit.
    pub fn gauging_verdict(&self, verdict: Option<Verdict>) -> &'static str {
        match verdict {
            Some(Verdict::Within) => self.gauging.within,
            Some(Verdict::Beyond) => self.gauging.beyond,
            Some(Verdict::CannotSay) => self.gauging.cannot_say,
            None => self.gauging.no_verdict,
        }
    }

    /// A figure of a size sheet.
    pub fn size_field(&self, field: SizeField) -> &'static str {
        let g = &self.gauging;
        match field {
            SizeField::NewLow => g.new_low,
            SizeField::NewHigh => g.new_high,
            SizeField::LimitLow => g.limit_low,
            SizeField::LimitHigh => g.limit_high,
            SizeField::OutOfRound => g.out_of_round,
            SizeField::Taper => g.taper,
            SizeField::BreakIn => g.break_in,
        }
    }

    /// What goes into the uncertainty of a result.
    pub fn uncertainty_source(&self, source: Source) -> String {
        let g = &self.gauging;
        match source {
            Source::Reading => g.source_reading,
            Source::OtherReading => g.source_other,
            Source::Repeats => g.source_repeats,
            Source::Resolution => g.source_resolution,
            Source::Calibration => g.source_calibration,
            Source::AsNew => g.source_as_new,
            Source::Bore => g.source_bore,
            Source::Journal => g.source_journal,
            Source::Wall(number) => return g.source_wall(number),
            Source::FaceWear => g.source_face,
            Source::PartTemperature => g.source_part_c,
            Source::GaugeTemperature => g.source_gauge_c,
            Source::Temperature => g.source_c,
            Source::PartExpansion => g.source_part_alpha,
            Source::GaugeExpansion => g.source_gauge_alpha,
            Source::BreakIn => g.source_break_in,
        }
        .to_owned()
    }

    /// What must be known of a finding; its figures in the unit that the part was read in.
    pub fn gauging_note(&self, note: Note, unit: Unit) -> String {
        let g = &self.gauging;
        match note {
            Note::NoGauge => g.note_no_gauge.to_owned(),
            Note::NotCalibrated => g.note_not_calibrated.to_owned(),
            Note::NotCorrected => g.note_not_corrected.to_owned(),
            Note::NoNewSize => g.note_no_new.to_owned(),
            Note::NoLimit => g.note_no_limit.to_owned(),
            Note::Unread { spots } => g.note_unread(spots),
            Note::NewUnread { spots } => g.note_new_unread(spots),
            Note::TooCoarse { enough } => g.note_too_coarse(&self.numbers.uncertain(enough, unit)),
        }
    }

    /// How much further a part could have run, in the reader's units.
    pub fn remaining(
        &self,
        left: &Remaining,
        basis: Basis,
        units: crate::format::UnitPrefs,
    ) -> String {
        let g = &self.gauging;
        let run = |amount: f64| self.numbers.run(amount, basis, units);
        match *left {
            Remaining::Between {
                estimate,
                low,
                high,
            } => g.left_between(&run(estimate), &run(low), &run(high)),
            Remaining::AtLeast { low } => g.left_at_least(&run(low)),
            Remaining::AlreadyBeyond { probability } => {
                g.left_beyond(&self.numbers.share(probability))
            }
            Remaining::NotReached => g.left_open.to_owned(),
        }
    }

    /// A figure by what it is counted in: `Wear rate per 100,000 km`; `per` as
    /// [`crate::format::Numbers::rate_basis`] says it.
    pub fn per(&self, what: &str, basis: Basis, per: &str) -> String {
        let g = &self.gauging;
        match basis {
            Basis::Distance => g.per_distance(what, per),
            Basis::Time => g.per_1000_h(what),
            Basis::Fuel => g.per_fuel(what, per),
        }
    }

    /// A gauge with what is known of it: step, calibration, when that was.
    pub fn gauge_said(&self, gauge: &Gauge, offset_minutes: i32) -> String {
        let (m, numbers) = (&self.measured, self.numbers);
        let typed = |figure: &Decimal| {
            let figure = numbers.as_typed(figure.as_str());
            [&figure, crate::format::NBSP, gauge.unit.sign()].concat()
        };
        let known = match &gauge.expanded {
            Some(u) => {
                let k = numbers.short(gauge.k, 2);
                ["U ", &typed(u), " (k = ", &k, ")"].concat()
            }
            None => m.gauge_no_u.to_owned(),
        };
        let calibrated = match gauge.calibrated {
            Some(when) => m.gauge_calibrated(&self.date(when, offset_minutes)),
            None => m.gauge_never.to_owned(),
        };
        m.gauge_said(&gauge.name, &typed(&gauge.resolution), &known, &calibrated)
    }

    /// The figures of a reading as typed: `129.412 mm`.
    pub fn reading_said(&self, reading: &Reading) -> String {
        let figures: Vec<String> = reading
            .values
            .iter()
            .map(|value| self.numbers.as_typed(value.as_str()))
            .collect();
        [&figures.join(" "), crate::format::NBSP, reading.unit.sign()].concat()
    }

    pub(super) fn gauge_refused(&self, error: &GaugeError) -> String {
        let g = &self.gauging;
        match error {
            GaugeError::Name { given } => g.error_gauge_name(*given, LONGEST_GAUGE_NAME),
            GaugeError::Resolution { given } => g.error_resolution(&self.numbers.as_typed(given)),
            GaugeError::Expanded { given } => g.error_expanded(&self.numbers.as_typed(given)),
            GaugeError::Coverage { given } => {
                let numbers = self.numbers;
                g.error_coverage(&numbers.short(*given, 4), &numbers.short(LARGEST_K, 0))
            }
        }
    }

    pub(super) fn reading_refused(&self, plan: Option<&Plan>, error: &ReadingError) -> String {
        let g = &self.gauging;
        let numbers = self.numbers;
        match error {
            ReadingError::NotGauged { at, .. } => g.error_not_gauged(&self.at(plan, at)),
            ReadingError::Spot { at, given, allowed } => {
                g.error_spot(&self.at(plan, at), given, allowed)
            }
            ReadingError::Unit { at, given, .. } => g.error_unit(&self.at(plan, at), given),
            ReadingError::Repeats { at, given } => {
                g.error_repeats(&self.at(plan, at), *given, MOST_REPEATS)
            }
            ReadingError::Temperature { at, given } => g.error_warmth(
                &self.at(plan, at),
                &numbers.short(*given, 2),
                &numbers.short(COLDEST_C, 0),
                &numbers.short(HOTTEST_C, 0),
            ),
        }
    }

    /// Why a size sheet was refused.
    pub fn size_error(&self, error: &SizeError) -> String {
        let g = &self.gauging;
        let typed = |text: &str| self.numbers.as_typed(text);
        match error {
            SizeError::Text { given, .. } => {
                g.error_sheet_text(*given, ringland_card::card::LONGEST_TEXT)
            }
            SizeError::TooMany { given } => g.error_sheet_many(*given, MOST_SIZES),
            SizeError::Twice { of } => g.error_twice(&self.size_name(of)),
            SizeError::HalfRange { of, field } => {
                g.error_half(&self.size_name(of), self.size_field(*field))
            }
            SizeError::Reversed { of, low, high } | SizeError::LimitsReversed { of, low, high } => {
                g.error_reversed(&self.size_name(of), &typed(low), &typed(high))
            }
            SizeError::LimitInside {
                of,
                field,
                given,
                side,
                bound,
            } => {
                let of = self.size_name(of);
                let (field, given, bound) = (self.size_field(*field), typed(given), typed(bound));
                match *side {
                    "above" => g.error_inside_above(&of, field, &given, &bound),
                    _ => g.error_inside_below(&of, field, &given, &bound),
                }
            }
            SizeError::WrongSide { of, field, way } => {
                let (of, field) = (self.size_name(of), self.size_field(*field));
                match *way {
                    "larger" => g.error_side_larger(&of, field),
                    _ => g.error_side_smaller(&of, field),
                }
            }
            SizeError::Shape { of, field, given } => {
                g.error_shape(&self.size_name(of), self.size_field(*field), &typed(given))
            }
            SizeError::BreakIn { of, given } => {
                g.error_break_in(&self.size_name(of), &typed(given))
            }
            SizeError::Unit {
                of,
                given,
                quantity,
            } => {
                let fit = Unit::ALL.into_iter();
                let fit = fit.filter(|unit| unit.quantity() == *quantity);
                let fit: Vec<&str> = fit.map(Unit::sign).collect();
                g.error_size_unit(&self.size_name(of), given.sign(), &fit.join(", "))
            }
        }
    }

    /// Why the file of a size sheet was not opened.
    pub fn sizes_file_error(&self, error: &SizesFileError) -> String {
        let (e, numbers) = (&self.errors, self.numbers);
        let bytes = |bytes: usize| numbers.bytes(u64::try_from(bytes).unwrap_or(u64::MAX));
        match error {
            SizesFileError::TooLarge { given } => {
                e.too_large(&bytes(*given), &bytes(MOST_PIECE_BYTES))
            }
            SizesFileError::Json(why) => self.json_error(why),
            SizesFileError::NotSizes => self.gauging.not_sizes.to_owned(),
            SizesFileError::Newer { version } => e.newer(*version, SIZES_VERSION),
            SizesFileError::Member(why) => self.file_error(why),
            SizesFileError::Contradiction(why) => self.size_error(why),
        }
    }

    /// A row of a size sheet as its checks name it, `place: characteristic`, in words.
    fn size_name(&self, of: &str) -> String {
        match of.split_once(": ") {
            Some((place, look)) => {
                let place = self.terms.places.get(place).map_or(place, |term| term.row);
                let look = self.terms.looks.get(look).map_or(look, |term| term.name);
                [place, ", ", &lowered(look)].concat()
            }
            None => self.gauging.sheet.to_owned(),
        }
    }
}
