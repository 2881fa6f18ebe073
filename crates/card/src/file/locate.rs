//! Where in a plan the reader stumbled. Reading a plan whole says what was wrong but not where, so on
//! an error its pieces are read one by one, the small ones first.

use serde::de::DeserializeOwned;
use serde_json::{Error, Value};

use crate::{
    layout::Layout,
    plan::{CapRule, Characteristic, Criterion, Part, Place, Position, Section},
    scale::Scale,
};

type Found = Option<(String, Error)>;

/// The smallest piece of a plan that does not read, with the reason.
pub(super) fn in_plan(place: &str, plan: &Value) -> Found {
    None.or_else(|| {
        let layout = plan.get("layout")?;
        piece::<Layout>(&format!("{place}.layout"), layout)
    })
    .or_else(|| in_scales(&format!("{place}.scales"), plan))
    .or_else(|| each(place, plan, "sections", in_section))
    .or_else(|| each(place, plan, "caps", piece::<CapRule>))
    .or_else(|| each(place, plan, "criteria", piece::<Criterion>))
}

fn in_scales(place: &str, plan: &Value) -> Found {
    let scales = plan.get("scales")?.as_object()?;
    scales
        .iter()
        .find_map(|(id, scale)| piece::<Scale>(&format!("{place}.{id}"), scale))
}

fn in_section(place: &str, section: &Value) -> Found {
    each(place, section, "parts", in_part).or_else(|| piece::<Section>(place, section))
}

fn in_part(place: &str, part: &Value) -> Found {
    each(place, part, "places", in_place).or_else(|| piece::<Part>(place, part))
}

fn in_place(at: &str, place: &Value) -> Found {
    each(at, place, "positions", piece::<Position>)
        .or_else(|| each(at, place, "looks", piece::<Characteristic>))
        .or_else(|| piece::<Place>(at, place))
}

fn each(place: &str, owner: &Value, member: &str, look: fn(&str, &Value) -> Found) -> Found {
    let items = owner.get(member)?.as_array()?;
    items
        .iter()
        .enumerate()
        .find_map(|(n, item)| look(&format!("{place}.{member}[{n}]"), item))
}

fn piece<T: DeserializeOwned>(place: &str, value: &Value) -> Found {
    let error = serde_json::from_value::<T>(value.clone()).err()?;
    Some((place.to_owned(), error))
}
