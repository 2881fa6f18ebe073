//! Spanish, of both shores: words that a workshop in Madrid and one in Monterrey share, one word for
//! one thing; infinitives or impersonal sentences on buttons and in hints, *usted* where somebody must
//! be spoken to; «angular» quotes; no gendered past tense after a name that is typed in.

mod bench;
mod card_page;
mod cautions;
mod common;
mod errors;
mod file_errors;
mod gauging;
mod hand_over;
mod help;
mod measured;
mod merging;
mod over_run;
mod photo_areas;
mod photos;
mod plan_errors;
mod plan_page;
mod safe;
mod seals;
mod shelf;
mod terms;
#[cfg(test)]
mod tests;

use super::Words;
use crate::format::Numbers;

impl Words {
    /// Spanish.
    pub const SPANISH: Self = Self {
        numbers: Numbers::SPANISH,
        terms: terms::TERMS,
        nav: common::NAV,
        common: common::COMMON,
        dates: common::DATES,
        units: common::UNITS,
        shelf: shelf::SHELF,
        safe: safe::SAFE,
        facts: shelf::FACTS,
        bench: bench::BENCH,
        pad: bench::PAD,
        keys: bench::KEYS,
        card: card_page::CARD,
        made: card_page::MADE,
        trade: card_page::TRADE,
        names: card_page::NAMES,
        cautions: cautions::CAUTIONS,
        help: help::HELP,
        help_grades: help::GRADES,
        help_areas: help::AREAS,
        help_score: help::SCORE,
        help_photos: help::PHOTOS,
        help_seals: help::SEALS,
        files: errors::FILES,
        errors: errors::ERRORS,
        file_errors: file_errors::FILE_ERRORS,
        plan_errors: plan_errors::PLAN_ERRORS,
        gauging: gauging::GAUGING,
        measured: measured::MEASURED,
        over_run: over_run::OVER_RUN,
        merging: merging::MERGING,
        photos: photos::PHOTOS,
        photo_areas: photo_areas::PHOTO_AREAS,
        seals: seals::SEALS,
        hand_over: hand_over::HAND_OVER,
        plans: plan_page::PLANS,
        plan_fields: plan_page::PLAN_FIELDS,
        grades: common::GRADES,
        grade_meanings: common::GRADE_MEANINGS,
        causes: common::CAUSES,
        reasons: common::REASONS,
    };
}
