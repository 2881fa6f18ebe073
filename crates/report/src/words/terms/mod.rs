//! The terms of the built-in plans: what each id is called.
//!
//! The plan carries ids; a language carries a term for each. A term is a field and its id stands
//! beside it, so that a language without it does not compile; a test walks the built-in plans of many
//! layouts and finds every id here.

mod looks;
mod places;
mod scales;
mod sections;

pub use looks::{Hints, LookTerm, Looks};
pub use places::{Columns, PlaceTerm, Places};
pub use scales::{Levels, Methods, Regimes, Scales, States};
pub use sections::{Caps, Parts, Sections};
pub(super) use {looks::look, places::place};

/// Declares a group of terms with their ids and their English text.
macro_rules! terms {
    ($(#[$doc:meta])* $group:ident: $type:ty {
        $($name:ident $id:literal = $term:expr;)+
    }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug)]
        pub struct $group {
            $(#[doc = concat!("For `", $id, "`.")] pub $name: $type,)+
        }

        impl $group {
            /// In English.
            pub const ENGLISH: Self = Self { $($name: $term,)+ };

            /// The term of an id.
            pub fn get(&self, id: &str) -> Option<&$type> {
                match id {
                    $($id => Some(&self.$name),)+
                    _ => None,
                }
            }

            /// Every term with its id.
            #[cfg(test)]
            pub(in crate::words) fn all(&self) -> Vec<(&'static str, $type)> {
                vec![$(($id, self.$name)),+]
            }
        }
    };
}
use terms;

/// The terms of one language.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// Sections.
    pub sections: Sections,
    /// Parts.
    pub parts: Parts,
    /// Places.
    pub places: Places,
    /// Columns that have a name rather than a number.
    pub columns: Columns,
    /// Characteristics.
    pub looks: Looks,
    /// What to look for in one place in particular.
    pub hints: Hints,
    /// Scales.
    pub scales: Scales,
    /// Methods of rating.
    pub methods: Methods,
    /// Lubrication regimes.
    pub regimes: Regimes,
    /// Levels of area scales.
    pub levels: Levels,
    /// States.
    pub states: States,
    /// Cap rules.
    pub caps: Caps,
}

impl Terms {
    /// English.
    pub const ENGLISH: Self = Self {
        sections: Sections::ENGLISH,
        parts: Parts::ENGLISH,
        places: Places::ENGLISH,
        columns: Columns::ENGLISH,
        looks: Looks::ENGLISH,
        hints: Hints::ENGLISH,
        scales: Scales::ENGLISH,
        methods: Methods::ENGLISH,
        regimes: Regimes::ENGLISH,
        levels: Levels::ENGLISH,
        states: States::ENGLISH,
        caps: Caps::ENGLISH,
    };
}

#[cfg(test)]
impl Terms {
    /// Every text of every term, with its group, its id and which of the term's texts it is.
    pub(in crate::words) fn texts(&self) -> Vec<(String, &'static str)> {
        let plain = [
            ("section", self.sections.all()),
            ("part", self.parts.all()),
            ("column", self.columns.all()),
            ("hint", self.hints.all()),
            ("scale", self.scales.all()),
            ("method", self.methods.all()),
            ("regime", self.regimes.all()),
            ("level", self.levels.all()),
            ("state", self.states.all()),
            ("cap", self.caps.all()),
        ];
        let mut all: Vec<(String, &'static str)> = plain
            .into_iter()
            .flat_map(|(group, terms)| {
                terms
                    .into_iter()
                    .map(move |(id, text)| (format!("{group} {id}"), text))
            })
            .collect();
        for (id, term) in self.places.all() {
            all.push((format!("place {id}"), term.name));
            all.push((format!("place {id}, row"), term.row));
        }
        for (id, term) in self.looks.all() {
            all.push((format!("look {id}"), term.name));
            all.push((format!("look {id}, short"), term.short));
            all.push((format!("look {id}, hint"), term.hint));
        }
        all
    }
}
