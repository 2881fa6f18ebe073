//! The marks of the kinds of size, worked out anew only where something changed: an engine has hundreds of
//! sizes, and a reading changes one.

use ringland_assess::gauging::{Verdict, finding::finding};
use ringland_card::{EntryId, plan::LeafId};

use super::{Gauger, Kind};

/// What the mark of a kind depends on: as long as that is the same, so is the mark.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Grounds {
    first: LeafId,
    readings: usize,
    last: Option<EntryId>,
    sheet: Option<EntryId>,
    gauge: Option<EntryId>,
}

/// The plan by its name, version and number of leaves.
type PlanSeen = (String, String, usize);

/// The marks of all kinds, and what they were made from.
#[derive(Clone, Debug, Default)]
pub struct Marks {
    plan: PlanSeen,
    known: Vec<(Grounds, Option<Verdict>)>,
}

impl Marks {
    /// The worst that the readings of each kind say of a limit, in the order of [`Gauger::kinds`].
    pub fn of(&mut self, gauger: &Gauger<'_>) -> Vec<Option<Verdict>> {
        let plan = gauger.standing.plan;
        let leaves = gauger.standing.index.leaves().len();
        let seen = (plan.name.clone(), plan.version.clone(), leaves);
        if self.plan != seen {
            self.plan = seen;
            self.known.clear();
        }
        let kinds = gauger.kinds();
        for (number, kind) in kinds.iter().enumerate() {
            let grounds = grounds(gauger, *kind);
            match self.known.get_mut(number) {
                Some((known, _)) if *known == grounds => {}
                Some(known) => *known = (grounds, worst(gauger, *kind)),
                None => self.known.push((grounds, worst(gauger, *kind))),
            }
        }
        self.known.iter().map(|(_, mark)| *mark).collect()
    }
}

fn grounds(gauger: &Gauger<'_>, kind: Kind) -> Grounds {
    let standing = gauger.standing;
    let readings = kind
        .leaves()
        .flat_map(|leaf| standing.readings[leaf.0].values());
    let last = readings.clone().max_by_key(|entry| entry.order());
    let gauges = standing.gauges.values();
    Grounds {
        first: kind.first,
        readings: readings.count(),
        last: last.map(|entry| entry.id),
        sheet: standing.sizes.map(|entry| entry.id),
        gauge: gauges
            .max_by_key(|entry| entry.order())
            .map(|entry| entry.id),
    }
}

fn worst(gauger: &Gauger<'_>, kind: Kind) -> Option<Verdict> {
    let found = kind
        .leaves()
        .filter_map(|leaf| finding(gauger.standing, leaf));
    Verdict::worst(found.filter_map(|finding| finding.verdict()))
}
