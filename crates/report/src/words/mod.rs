//! Every word that the app, the report and the command show, in one place per language.
//!
//! A language is a constant: [`Words::ENGLISH`], [`Words::SPANISH`]. The groups are declared with
//! their English text by the `words!` macro, each word a field. A group stands in the file of its
//! screen; what belongs to the ids of the plan stands in `terms`; how names of places and sayings are
//! put together stands in `names`. Every other language is a folder of the same files, `es` the first,
//! in which each group is a literal of all its fields: a language that lacks a word does not compile.
//!
//! To add a language:
//!
//! 1. copy `es` to a folder named by the language's tag, and put its texts in;
//! 2. name the constant there, say how it writes numbers beside [`Numbers::SPANISH`], and declare the
//!    folder here;
//! 3. give [`Language`] a variant: the compiler and the tests say what else is wanted.
//!
//! Where languages differ in more than words (the order of a name, the parts of a date), that is a
//! template, never code. Values go into a template as they are, so a template says nothing that would
//! have to agree with them: no article, no ending by gender. A term stands in small or capital initial
//! as its place asks ([`lowered`], [`capitalised`]).
//!
//! Style: sentence case; no full stop after one short sentence; `…` on a button that asks for more; no
//! colon after a label; the trade's own words.

mod bench;
mod card_page;
mod catalogue;
mod cautions;
mod common;
mod entries;
mod errors;
mod es;
mod file_errors;
mod gauging;
mod hand_over;
mod help;
mod measured;
mod merging;
mod names;
mod over_run;
mod photo_areas;
mod photos;
mod plan_errors;
mod plan_names;
mod plan_page;
mod safe;
mod seals;
mod shelf;
pub mod terms;
#[cfg(test)]
mod tests;

use ringland_card::{Cause, Grade, NotInspected, Timestamp};

pub use bench::{Bench, Keys, Pad};
pub use card_page::{CardPage, Made, Names, Trade};
pub use cautions::Cautions;
pub use common::{Causes, Common, Dates, GradeMeanings, Grades, Nav, Reasons, Units};
pub use entries::{CLEARED, UNDONE};
pub use errors::{Errors, Files};
pub use file_errors::FileErrors;
pub use gauging::Gauging;
pub use hand_over::HandOver;
pub use help::{Help, HelpAreas, HelpGrades, HelpPhotos, HelpScore, HelpSeals};
pub use measured::Measured;
pub use merging::Merging;
pub use names::{capitalised, lowered};
pub use over_run::OverRun;
pub use photo_areas::PhotoAreas;
pub use photos::Photos;
pub use plan_errors::PlanErrors;
pub use plan_page::{PlanFields, PlanPage};
pub use safe::Safe;
pub use seals::Seals;
pub use shelf::{Facts, Shelf};
use terms::Terms;

use crate::format::{Numbers, time};

/// The languages.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish.
    Spanish,
}

impl Language {
    /// Every language, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// The language's tag (BCP 47), for a page's `lang`.
    pub fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// The language that a tag asks for by its first part, whatever the region: `es-MX` is Spanish.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let asked = tag.split('-').next().unwrap_or(tag);
        Self::ALL
            .into_iter()
            .find(|language| language.tag().eq_ignore_ascii_case(asked))
    }

    /// The language's own name for itself.
    pub fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Español",
        }
    }
}

/// The words of a language.
pub fn words(language: Language) -> &'static Words {
    const ENGLISH: &Words = &Words::ENGLISH;
    const SPANISH: &Words = &Words::SPANISH;
    match language {
        Language::English => ENGLISH,
        Language::Spanish => SPANISH,
    }
}

/// Declares [`Words`] as its groups, each in English.
macro_rules! groups {
    ($($(#[$doc:meta])* $name:ident: $group:ident,)+) => {
        /// Every word of one language.
        #[derive(Clone, Copy, Debug)]
        pub struct Words {
            /// How the language writes numbers.
            pub numbers: Numbers,
            /// What the ids of the plan are called.
            pub terms: Terms,
            $($(#[$doc])* pub $name: $group,)+
        }

        impl Words {
            /// English.
            pub const ENGLISH: Self = Self {
                numbers: Numbers::ENGLISH,
                terms: Terms::ENGLISH,
                $($name: $group::ENGLISH,)+
            };

            /// Every word with the name of its group.
            #[cfg(test)]
            fn all(&self) -> Vec<(&'static str, catalogue::Word)> {
                let mut all = Vec::new();
                $(all.extend(self.$name.all().into_iter().map(|word| (stringify!($name), word)));)+
                all
            }
        }
    };
}

groups! {
    /// The screens.
    nav: Nav,
    /// What every screen uses.
    common: Common,
    /// Dates.
    dates: Dates,
    /// Units.
    units: Units,
    /// The Shelf.
    shelf: Shelf,
    /// What is kept.
    safe: Safe,
    /// Facts about an engine.
    facts: Facts,
    /// The wear map.
    bench: Bench,
    /// The rating pad.
    pad: Pad,
    /// Keys.
    keys: Keys,
    /// The Card.
    card: CardPage,
    /// How a number was made.
    made: Made,
    /// The trade's own figures.
    trade: Trade,
    /// Parts of names and sayings.
    names: Names,
    /// Cautions.
    cautions: Cautions,
    /// The help pages.
    help: Help,
    /// How to grade.
    help_grades: HelpGrades,
    /// How to paint areas.
    help_areas: HelpAreas,
    /// What the score means.
    help_score: HelpScore,
    /// How to photograph, and how to read areas off a photo.
    help_photos: HelpPhotos,
    /// What a seal shows and what it does not.
    help_seals: HelpSeals,
    /// Files.
    files: Files,
    /// What was wrong.
    errors: Errors,
    /// What is wrong in a file.
    file_errors: FileErrors,
    /// Where a plan contradicts itself.
    plan_errors: PlanErrors,
    /// Measurements.
    gauging: Gauging,
    /// What was measured, on the Card and in plots.
    measured: Measured,
    /// Wear against distance, engine beside engine.
    over_run: OverRun,
    /// What another file of a card would bring.
    merging: Merging,
    /// Photos.
    photos: Photos,
    /// Areas that are read off a photo.
    photo_areas: PhotoAreas,
    /// Seals.
    seals: Seals,
    /// The page that is handed over.
    hand_over: HandOver,
    /// Plans of one's own.
    plans: PlanPage,
    /// The fields of a plan.
    plan_fields: PlanFields,
    /// Wear grades.
    grades: Grades,
    /// What a grade looks like.
    grade_meanings: GradeMeanings,
    /// Causes.
    causes: Causes,
    /// Why something was not looked at.
    reasons: Reasons,
}

impl Words {
    /// A grade: "Light", "Light to medium".
    pub fn grade(&self, grade: Grade) -> String {
        let steps = grade.half_steps();
        let better = self.whole_grade(steps / 2);
        if steps.is_multiple_of(2) {
            better.to_owned()
        } else {
            self.grades
                .half(better, &lowered(self.whole_grade(steps / 2 + 1)))
        }
    }

    fn whole_grade(&self, number: usize) -> &'static str {
        let grades = &self.grades;
        match number {
            0 => grades.none,
            1 => grades.trace,
            2 => grades.light,
            3 => grades.medium,
            4 => grades.heavy,
            _ => grades.severe,
        }
    }

    /// What a grade looks like in general; nothing for a half step.
    pub fn grade_meaning(&self, grade: Grade) -> Option<&'static str> {
        let meanings = &self.grade_meanings;
        Some(match grade {
            Grade::None => meanings.none,
            Grade::Trace => meanings.trace,
            Grade::Light => meanings.light,
            Grade::Medium => meanings.medium,
            Grade::Heavy => meanings.heavy,
            Grade::Severe => meanings.severe,
            _ => return None,
        })
    }

    /// A cause.
    pub fn cause(&self, cause: Cause) -> &'static str {
        let causes = &self.causes;
        match cause {
            Cause::InService => causes.in_service,
            Cause::Dirt => causes.dirt,
            Cause::Coolant => causes.coolant,
            Cause::Fuel => causes.fuel,
            Cause::Overheating => causes.overheating,
            Cause::Assembly => causes.assembly,
            Cause::Mechanical => causes.mechanical,
            Cause::Unknown => causes.unknown,
        }
    }

    /// What a cause means, in a line.
    pub fn cause_meaning(&self, cause: Cause) -> &'static str {
        let causes = &self.causes;
        match cause {
            Cause::InService => causes.in_service_meaning,
            Cause::Dirt => causes.dirt_meaning,
            Cause::Coolant => causes.coolant_meaning,
            Cause::Fuel => causes.fuel_meaning,
            Cause::Overheating => causes.overheating_meaning,
            Cause::Assembly => causes.assembly_meaning,
            Cause::Mechanical => causes.mechanical_meaning,
            Cause::Unknown => causes.unknown_meaning,
        }
    }

    /// Why something was not looked at.
    pub fn reason(&self, reason: NotInspected) -> &'static str {
        let reasons = &self.reasons;
        match reason {
            NotInspected::LeftAssembled => reasons.left_assembled,
            NotInspected::OutOfReach => reasons.out_of_reach,
            NotInspected::Cleaned => reasons.cleaned,
            NotInspected::Missing => reasons.missing,
            NotInspected::SentAway => reasons.sent_away,
            NotInspected::Damaged => reasons.damaged,
            NotInspected::NoTime => reasons.no_time,
        }
    }

    /// A month by its number, 1 to 12.
    fn month(&self, number: u8) -> &'static str {
        let dates = &self.dates;
        match number {
            1 => dates.january,
            2 => dates.february,
            3 => dates.march,
            4 => dates.april,
            5 => dates.may,
            6 => dates.june,
            7 => dates.july,
            8 => dates.august,
            9 => dates.september,
            10 => dates.october,
            11 => dates.november,
            _ => dates.december,
        }
    }

    /// A date: `24 November 2026`. The offset is in minutes east of UTC.
    pub fn date(&self, instant: Timestamp, offset_minutes: i32) -> String {
        let day = time::civil(instant, offset_minutes).date;
        self.dates.date(day.day, self.month(day.month), day.year)
    }

    /// From one day to another, without saying a month or a year twice: `9 to 10 November 2026`.
    pub fn days(&self, first: Timestamp, last: Timestamp, offset_minutes: i32) -> String {
        let (from, to) = (
            time::civil(first, offset_minutes).date,
            time::civil(last, offset_minutes).date,
        );
        let end = self.date(last, offset_minutes);
        if from == to {
            return end;
        }
        let start = match (from.year == to.year, from.month == to.month) {
            (true, true) => from.day.to_string(),
            (true, false) => self.dates.day_of_month(from.day, self.month(from.month)),
            _ => self.date(first, offset_minutes),
        };
        self.dates.days(&start, &end)
    }

    /// A date and a time of day: `24 November 2026, 14:22`.
    pub fn date_time(&self, instant: Timestamp, offset_minutes: i32) -> String {
        let at = time::civil(instant, offset_minutes);
        let date = self.date(instant, offset_minutes);
        let time = format!("{:02}:{:02}", at.hour, at.minute);
        self.dates.date_time(&date, &time)
    }
}
