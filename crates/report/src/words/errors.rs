//! What was wrong, where, and what is allowed, in kind words.

use ringland_card::{
    AppendError, LookError, MergeError, Plan,
    card::{LONGEST_RATER, LONGEST_TEXT, MOST_ENTRIES, MOST_PLANS, MOST_RATERS},
    file::{
        BACKUP_VERSION, BackupError, BackupList, FileError, MOST_BACKUP_BYTES, MOST_BYTES,
        MOST_PIECE_BYTES, VERSION,
    },
    layout::LayoutError,
    plan::PlanError,
    scale::MOST_COUNTED,
};

use super::{Words, catalogue::words, lowered};
use crate::format::NumberError;

words! {
    /// Opening and saving files.
    Files {
        opening(name: &str) = "Opening {name}…";
        opened(name: &str) = "{name} is open";
        altered = "This file was changed after it was written: its digest does not match";
        read_only = "Read only";
        digest_matches = "The digest matches: the content is as it was written";
        saved(name: &str) = "{name} saved";
        too_large = "The file is too large for a card";
        news = "Files opened";
        came(n: usize, all: usize) = "{n} of {all} came in";
        reading(n: usize, all: usize) = "Reading {n} of {all}";
        in_backup(file: &str, n: usize) = "{file}, engine {n}";
        sheet_in_backup(file: &str, n: usize) = "{file}, size sheet {n}";
        plan_in_backup(file: &str, n: usize) = "{file}, plan of your own {n}";
        altered_here(name: &str) = "{name} was changed after it was saved: its digest does not match. It is here to look at, not to write on";
        altered_known = "It was changed after it was saved, and its engine is on this tablet already. Nothing was taken from it";
        unread = "The browser could not read it. Copy it onto this tablet first";
        cut_short = "The backup was cut short. What was whole of it is restored, the rest is missing";
        stopped(n: usize) = "Stopped with {n} left";
        not_saved = "The browser did not save the file. Try again, or try another browser";
        left_out(names: &str) = "The backup was saved without what cannot be read: {names}";
    }
}

words! {
    /// What was wrong.
    Errors {
        unknown_position(position: &str) = "This plan has no position “{position}”";
        unknown_characteristic(what: &str, position: &str, allowed: &str) = "{position}: “{what}” is not looked at there. What is: {allowed}";
        wrong_kind(at: &str, wanted: &str, given: &str) = "{at}: this is rated as {wanted}, not as {given}";
        not_percent(at: &str, what: &str, given: &str) = "{at}, {what}: {given} is not a percentage. Allowed is 0 to 100";
        over_100(at: &str, total: &str) = "{at}: the shares come to {total}. Allowed is 100 % at most";
        unknown_level(at: &str, level: &str, allowed: &str) = "{at}: “{level}” is not a level of this scale. Allowed are {allowed}";
        painting(at: &str) = "{at}: the painting does not agree with the shares. Paint it anew, or type the shares";
        unknown_state(at: &str, state: &str, allowed: &str) = "{at}: “{state}” is not a state of this scale. Allowed are {allowed}";
        not_count(at: &str, given: &str, most: &str) = "{at}: {given} is not a count. Allowed is a whole number from 0 to {most}";
        not_size(at: &str) = "{at}: this is not a size";
        known_id = "This entry is on the card already";
        plan(why: &str) = "The plan contradicts itself. {why}";
        lamport = "This entry counts further than any reader can follow, so it was not taken";
        rater(given: usize, most: usize) = "A rater's name has 1 to {most} characters; this one has {given}";
        long_text(given: usize, most: usize) = "A text has {most} characters at most; this one has {given}";
        fact_figure = "A distance, a time or a volume is 0 or more";
        unknown_target = "The entry to be corrected or taken out is not on this card";
        void_of_void = "This was taken out already. Make the entry anew instead";
        not_earlier = "Only an earlier entry can be corrected or taken out";
        full(most: &str) = "The card is full: {most} entries is the most. Save it as a file and ask for help";
        full_of_plans(most: usize) = "The plan of this card has been changed {most} times, the most allowed";
        full_of_raters(most: usize) = "{most} raters have written on this card, the most allowed. Rate under a name that it knows";
        other_card = "These are files of two different cards. Only files of one card can be merged";
        plan_differs = "The two files do not begin with the same plan, so one of them was changed. Nothing was merged";
        entry_differs = "One entry differs between the two files, so one of them was changed. Nothing was merged";
        unknown_differ = "The two files differ in what a newer version wrote. Merge them there";
        merged_full(given: &str, most: &str) = "Together the files hold {given} entries. Allowed is {most} at most";
        merged_plans(given: usize, most: usize) = "Together the files change the plan {given} times. Allowed is {most} at most";
        merged_raters(most: usize) = "Together the files have more than {most} raters, the most allowed";
        misfit(why: &str) = "One entry does not go with what the other file holds. {why}";
        too_large(given: &str, most: &str) = "The file has {given}. Allowed is {most} at most";
        not_json(line: usize, column: usize, what: &str) = "The file cannot be read at line {line}, column {column}: {what}";
        cut_off(line: usize, column: usize) = "The file was cut short: it ends in the middle, at line {line}, column {column}";
        not_a_card = "This is not a card: it does not say that it is one";
        no_card_in_page = "This page carries no whole card, or more than one";
        newer(given: u64, known: u64) = "The file is of version {given} of the format. This program reads up to version {known}; a newer one opens it";
        field(place: &str, why: &str) = "In the file, at {place}: {why}";
        of_file(why: &str) = "In the file: {why}";
        entry(id: &str, why: &str) = "In the file, entry {id}: {why}";
        too_many(given: &str, most: &str) = "The file holds {given} entries. Allowed is {most} at most";
        too_many_plans(given: usize, most: usize) = "The file changes the plan {given} times. Allowed is {most} at most";
        too_many_raters(most: usize) = "The file has entries by more than {most} raters, the most allowed";
        large_entry(given: &str, most: &str) = "this entry has {given}. Allowed is {most} at most";
        large_head(given: &str, most: &str) = "Beside its entries the file has {given}. Allowed is {most} at most";
        not_a_backup = "This is neither a card nor a plan nor a backup";
        too_many_own_plans(given: &str, most: &str) = "The backup holds {given} plans. Allowed is {most} at most";
        too_many_sheets(given: &str, most: &str) = "The backup holds {given} size sheets. Allowed is {most} at most";
        too_many_cards(given: &str, most: &str) = "The backup holds {given} engines. Allowed is {most} at most";
        layout(field: &str, given: u8, allowed: &str) = "{field}: {given} is not possible. Allowed is {allowed}";
        even_for_vee(low: &str, high: &str) = "an even number from {low} to {high} for a V";
        empty = "Nothing was typed";
        not_a_number(given: &str) = "“{given}” is not a number";
        groups(given: &str) = "“{given}” can be read in more than one way. Leave out what parts the thousands";
        unit(given: &str, allowed: &str) = "“{given}” is not a unit of this. Allowed are {allowed}";
        negative(given: &str) = "“{given}” is below 0. Allowed is 0 or more";
        not_whole(given: &str) = "“{given}” is not a whole number";
        storage(why: &str) = "It could not be kept on this tablet: {why}. Try again, or save a file";
        storage_full = "This tablet's storage is full. Save a backup and delete what is no longer needed here";
    }
}

impl Words {
    /// Why a look was refused; the plan gives places their names.
    pub fn look_error(&self, plan: &Plan, error: &LookError) -> String {
        self.look_refused(Some(plan), error)
    }

    fn look_refused(&self, plan: Option<&Plan>, error: &LookError) -> String {
        let e = &self.errors;
        match error {
            LookError::UnknownPosition { position } => e.unknown_position(position),
            LookError::UnknownCharacteristic {
                position,
                characteristic,
                allowed,
            } => {
                let place = self.position_called(plan, position);
                e.unknown_characteristic(characteristic, &place, allowed)
            }
            LookError::WrongKind { at, given, wanted } => {
                e.wrong_kind(&self.at(plan, at), &self.kind(wanted), &self.kind(given))
            }
            LookError::Percent { at, what, given } => {
                let what = self
                    .terms
                    .levels
                    .get(what)
                    .copied()
                    .unwrap_or(self.pad.percent);
                let given = self.numbers.short(*given, 4);
                e.not_percent(&self.at(plan, at), &lowered(what), &given)
            }
            LookError::AreaOver100 { at, total } => {
                e.over_100(&self.at(plan, at), &self.numbers.percent(*total))
            }
            LookError::UnknownLevel { at, level, allowed } => {
                let allowed = list(allowed, |id| self.terms.levels.get(id).copied());
                e.unknown_level(&self.at(plan, at), level, &allowed)
            }
            LookError::Painting { at, .. } => e.painting(&self.at(plan, at)),
            LookError::UnknownState { at, state, allowed } => {
                let allowed = list(allowed, |id| self.terms.states.get(id).copied());
                e.unknown_state(&self.at(plan, at), state, &allowed)
            }
            LookError::Count { at, given } => {
                let most = self.numbers.short(MOST_COUNTED as f64, 0);
                e.not_count(
                    &self.at(plan, at),
                    &self.numbers.short(*given as f64, 0),
                    &most,
                )
            }
            LookError::NotFinite { at, .. } => e.not_size(&self.at(plan, at)),
            LookError::Reading(why) => self.reading_refused(plan, why),
            LookError::ReadOff { at, why } => {
                let why = self.photo_areas_refused(why);
                self.photo_areas.refused(&self.at(plan, at), &why)
            }
        }
    }

    /// Why an entry was refused; the plan gives places their names.
    pub fn append_error(&self, plan: &Plan, error: &AppendError) -> String {
        self.entry_refused(Some(plan), error)
    }

    fn entry_refused(&self, plan: Option<&Plan>, error: &AppendError) -> String {
        let e = &self.errors;
        match error {
            AppendError::KnownId { .. } => e.known_id.to_owned(),
            AppendError::Look(why) => self.look_refused(plan, why),
            AppendError::Plan(why) => self.plan_error(why),
            AppendError::Gauge(why) => self.gauge_refused(why),
            AppendError::Sizes(why) => self.size_error(why),
            AppendError::Picture(why) => self.picture_refused(why),
            AppendError::Mark(why) => self.mark_refused(why),
            AppendError::NotAPhoto { .. } => self.photos.error_not_a_photo.to_owned(),
            AppendError::Lamport { .. } => e.lamport.to_owned(),
            AppendError::Rater { given } => e.rater(*given, LONGEST_RATER),
            AppendError::LongText { given } => e.long_text(*given, LONGEST_TEXT),
            AppendError::FactFigure { .. } => e.fact_figure.to_owned(),
            AppendError::UnknownTarget { .. } => e.unknown_target.to_owned(),
            AppendError::VoidOfVoid { .. } => e.void_of_void.to_owned(),
            AppendError::NotEarlier { .. } => e.not_earlier.to_owned(),
            AppendError::Full => e.full(&self.numbers.count(MOST_ENTRIES)),
            AppendError::FullOfPlans => e.full_of_plans(MOST_PLANS),
            AppendError::FullOfRaters => e.full_of_raters(MOST_RATERS),
        }
    }

    /// Why two files were not merged.
    pub fn merge_error(&self, error: &MergeError) -> String {
        let e = &self.errors;
        match error {
            MergeError::OtherCard { .. } => e.other_card.to_owned(),
            MergeError::PlanDiffers { .. } => e.plan_differs.to_owned(),
            MergeError::EntryDiffers { .. } => e.entry_differs.to_owned(),
            MergeError::UnknownFieldsDiffer { .. } => e.unknown_differ.to_owned(),
            MergeError::FullOfPlans { given } => e.merged_plans(*given, MOST_PLANS),
            MergeError::FullOfRaters => e.merged_raters(MOST_RATERS),
            MergeError::Misfit { why, .. } => e.misfit(&self.entry_refused(None, why)),
            MergeError::Full { given } => e.merged_full(
                &self.numbers.count(*given),
                &self.numbers.count(MOST_ENTRIES),
            ),
        }
    }

    /// Why a file was not opened. Nothing was taken from it.
    pub fn file_error(&self, error: &FileError) -> String {
        let (e, numbers) = (&self.errors, self.numbers);
        let bytes = |bytes: usize| numbers.bytes(u64::try_from(bytes).unwrap_or(u64::MAX));
        match error {
            FileError::TooLarge { given } => e.too_large(&bytes(*given), &bytes(MOST_BYTES)),
            FileError::Json(why) => self.json_error(why),
            FileError::NotACard => e.not_a_card.to_owned(),
            FileError::NoCardInPage => e.no_card_in_page.to_owned(),
            FileError::Newer { version } => e.newer(*version, VERSION),
            FileError::Field { place, why } => self.field_error(place, why),
            FileError::Plan { place, why } => e.field(place, &self.plan_error(why)),
            FileError::Entry { place, why } => e.field(place, &self.entry_refused(None, why)),
            FileError::Misfit { id, why } => {
                e.entry(&id.to_string(), &self.entry_refused(None, why))
            }
            FileError::TooManyRaters => e.too_many_raters(MOST_RATERS),
            FileError::LargeEntry { place, given } => e.field(
                place,
                &e.large_entry(&bytes(*given), &bytes(MOST_PIECE_BYTES)),
            ),
            FileError::LargeHead { given } => {
                e.large_head(&bytes(*given), &bytes(MOST_PIECE_BYTES))
            }
            FileError::TooManyPlans { given } => e.too_many_plans(*given, MOST_PLANS),
            FileError::TooMany { given } => {
                e.too_many(&numbers.count(*given), &numbers.count(MOST_ENTRIES))
            }
        }
    }

    /// Why a backup was not opened. Nothing was taken from it.
    pub fn backup_error(&self, error: &BackupError) -> String {
        let (e, numbers) = (&self.errors, self.numbers);
        let bytes = |bytes: usize| numbers.bytes(u64::try_from(bytes).unwrap_or(u64::MAX));
        match error {
            BackupError::TooLarge { given } => {
                e.too_large(&bytes(*given), &bytes(MOST_BACKUP_BYTES))
            }
            BackupError::Json(why) => self.json_error(why),
            BackupError::NotABackup => e.not_a_backup.to_owned(),
            BackupError::Newer { version } => e.newer(*version, BACKUP_VERSION),
            BackupError::Field { place, why } => self.field_error(place, why),
            BackupError::TooMany { list, given } => {
                let (given, most) = (numbers.count(*given), numbers.count(list.most()));
                match list {
                    BackupList::Cards => e.too_many_cards(&given, &most),
                    BackupList::Plans => e.too_many_own_plans(&given, &most),
                    BackupList::Sheets => e.too_many_sheets(&given, &most),
                }
            }
        }
    }

    /// Why a plan was refused.
    pub fn plan_error(&self, error: &PlanError) -> String {
        match error {
            PlanError::Layout(why) => self.layout_error(why),
            why => self.errors.plan(&self.contradiction(why)),
        }
    }

    /// Why a layout was refused.
    pub fn layout_error(&self, error: &LayoutError) -> String {
        let facts = &self.facts;
        let field = match error.field {
            "cylinders" => facts.cylinders,
            "intake_valves" => facts.intake_valves,
            "exhaust_valves" => facts.exhaust_valves,
            "compression_rings" => facts.compression_rings,
            "mains" => facts.mains,
            "turbochargers" => facts.turbochargers,
            other => other,
        };
        self.errors
            .layout(field, error.given, &self.layout_allowed(error.allowed))
    }

    /// What a layout may have, said by the checks as "2 to 25" or "an even number from 4 to 24 for a V".
    fn layout_allowed(&self, allowed: &str) -> String {
        let even = allowed
            .strip_prefix("an even number from ")
            .and_then(|rest| rest.strip_suffix(" for a V"));
        match even.unwrap_or(allowed).split_once(" to ") {
            Some((low, high)) if even.is_some() => self.errors.even_for_vee(low, high),
            Some((low, high)) => self.common.range(low, high),
            None => allowed.to_owned(),
        }
    }

    /// Why a typed figure was refused.
    pub fn number_error(&self, error: &NumberError) -> String {
        let e = &self.errors;
        match error {
            NumberError::Empty => e.empty.to_owned(),
            NumberError::NotANumber { given } => e.not_a_number(given),
            NumberError::Groups { given } => e.groups(given),
            NumberError::Unit { given, allowed } => e.unit(given, allowed),
            NumberError::Negative { given } => e.negative(given),
            NumberError::NotWhole { given } => e.not_whole(given),
        }
    }

    /// What a place of the form `position/characteristic` is called in the plan; itself where the
    /// plan has no such place.
    pub(super) fn at(&self, plan: Option<&Plan>, at: &str) -> String {
        plan.into_iter()
            .flat_map(Plan::places)
            .find_map(|(.., place)| {
                place.positions.iter().find_map(|position| {
                    let look = at.strip_prefix(position.id.as_str())?.strip_prefix('/')?;
                    let look = place.looks.iter().find(|known| known.id.as_str() == look)?;
                    let name = self.position_name(place, position);
                    Some([name.as_str(), self.characteristic_short(look)].join(" · "))
                })
            })
            .unwrap_or_else(|| at.to_owned())
    }

    pub(super) fn position_called(&self, plan: Option<&Plan>, id: &str) -> String {
        plan.into_iter()
            .flat_map(Plan::places)
            .find_map(|(.., place)| {
                let position = place
                    .positions
                    .iter()
                    .find(|known| known.id.as_str() == id)?;
                Some(self.position_name(place, position))
            })
            .unwrap_or_else(|| id.to_owned())
    }

    /// A kind of look or of scale as the errors name it.
    fn kind(&self, kind: &str) -> String {
        let term = self.terms.methods.get(kind).copied();
        lowered(term.unwrap_or(if kind == "not inspected" {
            self.bench.not_inspected
        } else {
            kind
        }))
    }
}

/// A list of ids as a list of terms.
fn list(ids: &str, term: impl Fn(&str) -> Option<&'static str>) -> String {
    let names: Vec<String> = ids
        .split(", ")
        .map(|id| lowered(term(id).unwrap_or(id)))
        .collect();
    names.join(", ")
}
