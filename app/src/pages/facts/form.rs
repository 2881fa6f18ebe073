//! The form of the facts, which a new engine and the facts page share.

use leptos::prelude::*;
use ringland_card::{Fact, FactField, Standing};
use ringland_report::{format::UnitPrefs, words::Words};

use super::{
    fields::{self, GROUPS, Group},
    input::FactInput,
};
use crate::store::draft;

/// What has been typed into each field: a `Copy` handle.
#[derive(Clone, Copy, Debug)]
pub struct FactsForm {
    fields: StoredValue<Vec<Typed>>,
    checked: RwSignal<bool>,
    /// Whose draft it is; none where nothing is remembered of what is typed.
    draft: StoredValue<Option<String>>,
}

/// A field: what is typed into it, and what held before, as it was shown.
#[derive(Clone, Debug)]
struct Typed {
    field: FactField,
    text: RwSignal<String>,
    before: Option<(String, Fact)>,
}

/// What the form would change about one fact.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// It says this now.
    Set(Fact),
    /// It is left open again.
    Clear(FactField),
}

impl FactsForm {
    /// A form with every field open.
    pub fn open() -> Self {
        Self::with(|_field| None)
    }

    /// A form with the facts that hold.
    pub fn of(standing: &Standing<'_>, words: &Words, units: UnitPrefs) -> Self {
        Self::with(|field| {
            let fact = standing.fact(field)?;
            Some((words.fact_value(fact, units), fact.clone()))
        })
    }

    fn with(before: impl Fn(FactField) -> Option<(String, Fact)>) -> Self {
        let fields = fields::all().map(|field| {
            let before = before(field);
            let shown = before.as_ref().map(|(shown, _)| shown.clone());
            Typed {
                field,
                text: RwSignal::new(shown.unwrap_or_default()),
                before,
            }
        });
        Self {
            fields: StoredValue::new(fields.collect()),
            checked: RwSignal::new(false),
            draft: StoredValue::new(None),
        }
    }

    /// With what was typed before the page was loaded again, and remembering from now on what is typed;
    /// and whether there was something.
    pub fn remembered(self, whose: &str) -> (Self, bool) {
        self.draft.set_value(Some(whose.to_owned()));
        let mut any = false;
        for typed in self.fields.get_value() {
            if let Some(text) = draft::recall(&name(whose, typed.field)) {
                typed.text.set(text);
                any = true;
            }
        }
        (self, any)
    }

    /// Takes what is typed into a field.
    pub fn typed(self, field: FactField, text: String) {
        let before = self.fields.with_value(|fields| {
            let typed = fields.iter().find(|typed| typed.field == field)?;
            typed.before.as_ref().map(|(shown, _)| shown.clone())
        });
        self.draft.with_value(|whose| {
            let Some(whose) = whose else { return };
            if before.unwrap_or_default() == text {
                draft::forget(&name(whose, field));
            } else {
                draft::remember(&name(whose, field), &text);
            }
        });
        self.text(field).set(text);
    }

    /// Forgets what was typed: it is kept now, or not wanted.
    pub fn forget(self) {
        self.draft.with_value(|whose| {
            for field in fields::all().filter(|_| whose.is_some()) {
                draft::forget(&name(whose.as_deref().unwrap_or_default(), field));
            }
        });
    }

    /// What is typed into a field.
    pub fn text(self, field: FactField) -> RwSignal<String> {
        // Every field has its text since the form was made.
        self.fields
            .with_value(|fields| Some(fields.iter().find(|typed| typed.field == field)?.text))
            .unwrap_or_default()
    }

    /// Whether the whole form was asked to be right: then open mistakes show, too.
    pub fn checked(self) -> bool {
        self.checked.get()
    }

    /// What the form would change, field by field.
    ///
    /// # Errors
    ///
    /// The first field in which no fact can be read; from then on mistakes show.
    pub fn changes(self, units: UnitPrefs) -> Result<Vec<Change>, FactField> {
        let mut changes = Vec::new();
        for Typed {
            field,
            text,
            before,
        } in self.fields.get_value()
        {
            let text = text.get_untracked();
            if before.as_ref().is_some_and(|(shown, _)| *shown == text) {
                continue;
            }
            let Ok(fact) = fields::read(field, &text, units) else {
                self.checked.set(true);
                return Err(field);
            };
            match (fact, before) {
                (Some(fact), Some((_, before))) if fact == before => {}
                (Some(fact), _) => changes.push(Change::Set(fact)),
                (None, Some(_)) => changes.push(Change::Clear(field)),
                (None, None) => {}
            }
        }
        Ok(changes)
    }
}

/// The name of a field's draft.
fn name(whose: &str, field: FactField) -> String {
    [whose, "/", fields::id(field)].concat()
}

/// The fields of all groups.
#[component]
pub fn FactFields(
    /// What is typed into them.
    form: FactsForm,
) -> impl IntoView {
    GROUPS
        .into_iter()
        .map(|group| view! { <FactGroup form group/> })
        .collect_view()
}

#[component]
fn FactGroup(form: FactsForm, group: Group) -> impl IntoView {
    let words = crate::store::prefs::use_words();
    let fields = group.fields.iter().copied();
    view! {
        <fieldset class="facts__group">
            <legend class="facts__title">{(group.title)(words)}</legend>
            <div class="facts__fields">
                {fields.map(|field| view! { <FactInput form field/> }).collect_view()}
            </div>
        </fieldset>
    }
}

#[cfg(test)]
mod tests {
    use ringland_report::{
        format::UnitPrefs,
        words::{Language, words},
    };

    use super::*;

    fn filled() -> FactsForm {
        let words = words(Language::English);
        let units = UnitPrefs::default();
        FactsForm::with(|field| {
            let text = match field {
                FactField::Name => "Tarn 14",
                FactField::Distance => "812,400 km",
                _ => return None,
            };
            let fact = fields::read(field, text, units).unwrap().unwrap();
            Some((words.fact_value(&fact, units), fact))
        })
    }

    #[test]
    fn only_what_was_changed_is_a_change() {
        let _owner = Owner::new();
        let (form, units) = (filled(), UnitPrefs::default());
        assert_eq!(form.changes(units), Ok(vec![]));
        form.text(FactField::Name).set(" Tarn 14 ".to_owned());
        form.text(FactField::Distance).set("812400".to_owned());
        assert_eq!(form.changes(units), Ok(vec![]));
        form.text(FactField::Name).set(String::new());
        form.text(FactField::Fleet).set("Tarn Ferries".to_owned());
        assert_eq!(
            form.changes(units),
            Ok(vec![
                Change::Clear(FactField::Name),
                Change::Set(Fact::Fleet("Tarn Ferries".to_owned())),
            ])
        );
    }

    #[test]
    fn a_mistake_names_its_field_and_shows_from_then_on() {
        let _owner = Owner::new();
        let form = filled();
        form.text(FactField::Sump).set("a lot".to_owned());
        assert_eq!(form.changes(UnitPrefs::default()), Err(FactField::Sump));
        assert!(form.checked.get_untracked());
    }
}
