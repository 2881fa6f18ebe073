//! What was measured, as JSON: every result with its uncertainty.

use ringland_assess::{
    Tree,
    gauging::{
        Basis, GaugingError, Remaining, Verdict,
        finding::{Figure, Finding, Held, NewFrom, Note, ShapeFigure},
        outlook::{DRAWS, Outlook, SEED},
        second_look::SecondLook,
    },
};
use ringland_card::{
    gauging::{Quantity, Spot},
    plan::LeafId,
};
use serde_json::{Map, Value, json};

/// Every measured leaf.
pub(crate) fn measurements(tree: &Tree, findings: &[Option<Finding>]) -> Vec<Value> {
    let found = findings.iter().flatten();
    found.map(|finding| measurement(tree, finding)).collect()
}

fn path(tree: &Tree, leaf: LeafId) -> &str {
    &tree.nodes()[tree.node_of(leaf)].path
}

fn measurement(tree: &Tree, finding: &Finding) -> Value {
    let spots: Vec<Value> = finding
        .spots
        .iter()
        .map(|spot| with(at(&spot.spot), &spot.figure))
        .collect();
    let rates: Vec<Value> = finding
        .rates
        .iter()
        .map(|rate| with(json!({ "per": basis(rate.basis) }), &rate.figure))
        .collect();
    let new = finding.new.map(|new| {
        json!({
            "value": new.si,
            "u": new.standard.u,
            "from": match new.from {
                NewFrom::Measured => "measured",
                NewFrom::Range { .. } => "range",
            },
        })
    });
    let notes: Vec<Value> = finding.notes.iter().map(|known| note(*known)).collect();
    json!({
        "path": path(tree, finding.leaf),
        "unit": match finding.quantity {
            Quantity::Length => "m",
            Quantity::Mass => "kg",
        },
        "spots": spots,
        "size": with(at(&finding.at), &finding.size),
        "out_of_round": finding.out_of_round.as_ref().map(shape),
        "taper": finding.taper.as_ref().map(shape),
        "new": new,
        "limits": finding.held.iter().map(held).collect::<Vec<_>>(),
        "wear": finding.wear.as_ref().map(figure),
        "share": finding.share.as_ref().map(figure),
        "rates": rates,
        "verdict": finding.verdict().map(verdict),
        "notes": notes,
    })
}

fn figure(figure: &Figure) -> Value {
    with(json!({}), figure)
}

/// A figure beside what it is about; degrees of freedom without an end are left out.
fn with(about: Value, figure: &Figure) -> Value {
    let mut members = match about {
        Value::Object(members) => members,
        _ => Map::new(),
    };
    let budget: Vec<Value> = figure
        .budget
        .rows
        .iter()
        .map(|row| {
            json!({
                "source": format!("{:?}", row.component.label),
                "u": row.component.standard.u,
                "sensitivity": row.component.sensitivity,
            })
        })
        .collect();
    members.insert("value".to_owned(), figure.si.into());
    members.insert("u".to_owned(), figure.budget.u.into());
    if let Some(dof) = figure.budget.dof.filter(|dof| dof.get().is_finite()) {
        members.insert("dof".to_owned(), dof.get().into());
    }
    members.insert("budget".to_owned(), budget.into());
    Value::Object(members)
}

fn at(spot: &Spot) -> Value {
    json!({ "station": spot.station, "axis": spot.axis })
}

fn shape(shape: &ShapeFigure) -> Value {
    let limit = shape.held.as_ref().map(held);
    with(json!({ "at": shape.at, "limit": limit }), &shape.figure)
}

fn held(held: &Held) -> Value {
    json!({
        "limit": held.limit,
        "of": held.field.as_str(),
        "probability": held.conformity.probability,
        "verdict": verdict(held.conformity.verdict),
        "sufficient_u": held.conformity.sufficient_u,
    })
}

fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Within => "within",
        Verdict::Beyond => "beyond",
        Verdict::CannotSay => "cannot_say",
    }
}

fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::Distance => "m",
        Basis::Time => "s",
        Basis::Fuel => "m3",
    }
}

fn note(note: Note) -> Value {
    match note {
        Note::NoGauge => json!("no_gauge"),
        Note::NotCalibrated => json!("not_calibrated"),
        Note::NotCorrected => json!("not_corrected"),
        Note::NoNewSize => json!("no_new_size"),
        Note::NoLimit => json!("no_limit"),
        Note::Unread { spots } => json!({ "unread": spots }),
        Note::NewUnread { spots } => json!({ "new_unread": spots }),
        Note::TooCoarse { enough } => json!({ "too_coarse": enough }),
    }
}

/// Sizes that do not go with what was seen.
pub(crate) fn second_looks(tree: &Tree, looks: &[SecondLook]) -> Vec<Value> {
    let look = |look: &SecondLook| {
        json!({
            "path": path(tree, look.measured),
            "seen": path(tree, look.seen),
            "score": look.score,
            "share": look.share,
        })
    };
    looks.iter().map(look).collect()
}

/// How much further the engine could have run; none where nothing says.
pub(crate) fn outlook(tree: &Tree, findings: &[Option<Finding>]) -> Result<Value, GaugingError> {
    let Some(outlook) = Outlook::of(findings) else {
        return Ok(Value::Null);
    };
    let first = outlook.first_limit()?;
    let parts = outlook.leaves.iter().zip(&first.positions);
    let parts: Vec<Value> = parts
        .map(|(leaf, left)| json!({ "path": path(tree, *leaf), "left": remaining(*left) }))
        .collect();
    let likely: Vec<Value> = first
        .likely
        .iter()
        .filter_map(|likely| {
            let leaf = *outlook.leaves.get(likely.position)?;
            Some(json!({ "path": path(tree, leaf), "probability": likely.probability }))
        })
        .collect();
    Ok(json!({
        "per": basis(outlook.basis),
        "engine": remaining(first.engine),
        "first": likely,
        "parts": parts,
        "draws": DRAWS,
        "seed": SEED,
        "assumes": "wear goes on at the rate it has had; the run is exact",
        "caution": "whether a part may run again is for the engine maker's manual, local rules and licensed people",
    }))
}

fn remaining(remaining: Remaining) -> Value {
    match remaining {
        Remaining::Between {
            estimate,
            low,
            high,
        } => json!({ "estimate": estimate, "low": low, "high": high }),
        Remaining::AtLeast { low } => json!({ "at_least": low }),
        Remaining::AlreadyBeyond { probability } => json!({ "already_beyond": probability }),
        Remaining::NotReached => json!("not_reached"),
    }
}
