//! The days at the bench: who wrote what, when, on which tablet, in which order.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use ringland_card::{
    About, At, Body, Card, CardId, DeviceId, Entry, EntryId, Fact, Look, Plan, Timestamp, builtin,
    plan::Leaf,
    scale::{Method, Scale},
};
use uom::si::{
    f64::{Length, Time, Volume},
    length::kilometer,
    time::hour,
    volume::liter,
};

use super::{
    DemoError, draws,
    engines::FLEET,
    fleet::{Day, Engine, Slip, fits},
    parts::parts,
    rater::Rater,
    wear::{Truth, truths},
};

/// Midnight before the first of November 2026, universal time, in seconds since 1970.
pub(super) const NOVEMBER: i64 = 1_793_491_200;
/// When the tablets were set up for the trial: a Monday in September 2026.
const SET_UP: i64 = NOVEMBER - 48 * 86_400;
/// How long after the first rater the second begins, in seconds.
pub(super) const SECOND_RATER: i64 = 22 * 60;
/// The share of positions that a second rater never gets to.
const PASSED_OVER: f64 = 0.04;

/// One thing written by one rater, before it is an entry.
pub(super) struct Written {
    second: i64,
    rater: usize,
    pub(super) body: Body,
    supersedes: Option<EntryId>,
    id: EntryId,
}

/// The card of one engine.
pub(super) fn card(engine: &'static Engine) -> Result<Card, DemoError> {
    let plan = builtin(&(engine.layout)(), engine.depth)?;
    let begun = engine.days.first().map_or(NOVEMBER, Day::second);
    let mut ids = draws(1000 + engine.stream);
    let mut card = Card::new(CardId::v7(milliseconds(begun), ids.random()), plan.clone())?;
    check_names(engine, &plan)?;
    let truths = truths(engine, &plan, card.index())?;
    let parts = parts(engine, &plan, card.index(), &truths)?;

    let mut written: Vec<Written> = Vec::new();
    for (number, rater) in engine.raters.iter().enumerate() {
        let mut bench = Bench {
            engine,
            plan: &plan,
            rater,
            number,
            now: begun,
            looks: draws(rater.stream * 1000 + engine.stream),
            tail: draws(rater.stream * 1000 + 500 + engine.stream).random(),
            written: Vec::new(),
        };
        bench.strip_down(card.index().leaves(), &truths);
        bench.measure(card.index().leaves(), &parts)?;
        written.append(&mut bench.written);
    }
    written.sort_by_key(|written| (written.second, written.rater));
    write(engine, &mut card, written)?;
    Ok(card)
}

/// Writes everything down in the order of its time. Each tablet counts for itself; at the beginning of
/// each day they exchange their files, and both go on from the higher count.
fn write(engine: &'static Engine, card: &mut Card, written: Vec<Written>) -> Result<(), DemoError> {
    let devices: Vec<DeviceId> = engine.raters.iter().map(|rater| rater.device()).collect();
    let mut lamport = vec![0u64; devices.len()];
    let days = engine.days.iter().chain([&engine.gauging.day]);
    let mut days = days.map(Day::second).peekable();
    for Written {
        second,
        rater,
        body,
        supersedes,
        id,
    } in written
    {
        if days.next_if(|day| *day <= second).is_some() {
            let highest = lamport.iter().copied().max().unwrap_or(0);
            lamport.fill(highest);
        }
        lamport[rater] += 1;
        let time = Timestamp::from_second(second).unwrap_or(Timestamp::UNIX_EPOCH);
        let name = engine.raters[rater].name;
        let mut entry = Entry::new(id, devices[rater], lamport[rater], time, name, body);
        entry.supersedes = supersedes;
        card.append(entry).map_err(|why| DemoError::Entry {
            engine: engine.slug,
            why,
        })?;
    }
    Ok(())
}

/// One rater at the bench.
pub(super) struct Bench<'a> {
    pub(super) engine: &'a Engine,
    pub(super) plan: &'a Plan,
    rater: &'a Rater,
    number: usize,
    /// Seconds since 1970.
    pub(super) now: i64,
    pub(super) looks: ChaCha8Rng,
    /// Random end of this rater's entry ids.
    tail: [u8; 10],
    pub(super) written: Vec<Written>,
}

impl Bench<'_> {
    pub(super) fn first(&self) -> bool {
        self.number == 0
    }

    fn strip_down(&mut self, leaves: &[Leaf], truths: &[Truth]) {
        if self.first() {
            self.facts();
        } else {
            self.now += SECOND_RATER;
        }
        let mut at: Option<&Leaf> = None;
        let mut passed_over = false;
        for (leaf, truth) in leaves.iter().zip(truths) {
            if leaf.gauged {
                continue;
            }
            let section = self.plan.sections[leaf.section].id.as_str();
            if self.engine.until == Some(section) {
                break;
            }
            let same = |before: &Leaf| {
                (before.section, before.part, before.place, before.position)
                    == (leaf.section, leaf.part, leaf.place, leaf.position)
            };
            if !at.is_some_and(same) {
                if let Some(done) = at {
                    self.leave(done);
                }
                passed_over = !self.first() && self.looks.random::<f64>() < PASSED_OVER;
                self.walk_to(at, leaf, section);
            }
            at = Some(leaf);
            if !passed_over {
                self.rate(leaf, truth);
            }
        }
        if let Some(done) = at {
            self.leave(done);
        }
        self.remarks_on("");
    }

    /// Seconds pass.
    pub(super) fn pass(&mut self, from: i64, to: i64) {
        self.now += self.looks.random_range(from..=to);
    }

    fn walk_to(&mut self, from: Option<&Leaf>, to: &Leaf, section: &str) {
        let new_part = from.is_none_or(|from| (from.section, from.part) != (to.section, to.part));
        let new_section = from.is_none_or(|from| from.section != to.section);
        match (new_section, new_part) {
            // The next parts are lifted out, wiped and laid in a row.
            (true, _) => self.pass(6 * 60, 18 * 60),
            (false, true) => self.pass(90, 5 * 60),
            (false, false) => self.pass(4, 12),
        }
        let late = if self.first() { 0 } else { SECOND_RATER };
        let begins = |day: &&Day| day.section == section && new_section;
        if let Some(day) = self.engine.days.iter().skip(1).find(begins) {
            self.now = self.now.max(day.second() + late);
        }
    }

    fn rate(&mut self, leaf: &Leaf, truth: &Truth) {
        let at = leaf.at(self.plan);
        let Some(scale) = self.plan.scale(&leaf.characteristic(self.plan).scale) else {
            return;
        };
        let (position, look) = (at.position.as_str(), at.characteristic.as_str());
        if let Some(unseen) = self.engine.unseen.iter().find(|u| u.hits(position, look)) {
            self.pass(3, 8);
            self.rating(&at, Look::NotInspected(unseen.reason), None);
            return;
        }
        let (least, most) = seconds(scale.method());
        self.pass(least, most);
        let slip = self.slip(&at).filter(|_| self.first());
        let first = slip.map(|slip| {
            let wrong = self.look(&truth.off(slip.off), scale, look);
            let wrong = self.rating(&at, wrong, None);
            self.pass(20, 70);
            wrong
        });
        let supersedes = match (slip, first) {
            (
                Some(Slip {
                    void: Some(reason), ..
                }),
                Some(entry),
            ) => {
                let reason = (*reason).to_owned();
                self.write(Body::Void { entry, reason }, None);
                self.pass(5, 15);
                None
            }
            (_, first) => first,
        };
        let seen = self.look(truth, scale, look);
        self.rating(&at, seen, supersedes);
    }

    fn look(&mut self, truth: &Truth, scale: &Scale, characteristic: &str) -> Look {
        self.rater
            .look(truth, scale, characteristic, &mut self.looks)
    }

    fn slip(&self, at: &At) -> Option<&'static Slip> {
        let slips: &'static [Slip] = self.engine.slips;
        slips
            .iter()
            .find(|slip| slip.at == at.position.as_str() && slip.look == at.characteristic.as_str())
    }

    /// What is written once a position has been rated: what is answerable, and words.
    fn leave(&mut self, leaf: &Leaf) {
        if !self.first() {
            return;
        }
        let position = leaf.position(self.plan).id.clone();
        for look in &leaf.place(self.plan).looks {
            let hit = self
                .engine
                .findings
                .iter()
                .filter(|finding| finding.hits(position.as_str(), look.id.as_str()))
                .find_map(|finding| finding.cause);
            if let Some(cause) = hit {
                self.pass(4, 10);
                let about = About {
                    position: position.clone(),
                    characteristic: Some(look.id.clone()),
                };
                self.write(Body::Cause { about, cause }, None);
            }
        }
        self.remarks_on(position.as_str());
    }

    fn remarks_on(&mut self, position: &str) {
        if !self.first() {
            return;
        }
        let remarks = self.engine.remarks;
        for remark in remarks.iter().filter(|remark| remark.at == position) {
            self.pass(25, 90);
            let about = self.about(remark.at, remark.look);
            let text = remark.text.to_owned();
            self.write(Body::Remark { about, text }, None);
        }
    }

    /// The place that a remark names; the engine where it names none.
    fn about(&self, at: &str, look: &str) -> Option<About> {
        let (place, position) = self.plan.places().find_map(|(.., place)| {
            let position = place.positions.iter().find(|p| p.id.as_str() == at)?;
            Some((place, position))
        })?;
        let look = place.looks.iter().find(|known| known.id.as_str() == look);
        Some(About {
            position: position.id.clone(),
            characteristic: look.map(|look| look.id.clone()),
        })
    }

    fn facts(&mut self) {
        let engine = self.engine;
        let text = str::to_owned;
        for fact in [
            Fact::Name(text(engine.name)),
            Fact::Fleet(text(FLEET)),
            Fact::Vehicle(text(engine.vehicle)),
            Fact::Model(text(engine.model.name)),
            Fact::Serial(text(engine.serial)),
            Fact::Site(text(engine.site)),
            Fact::Duty(text(engine.duty)),
            Fact::DistanceM(Length::new::<kilometer>(engine.distance_km)),
            Fact::RunningTimeS(Time::new::<hour>(engine.hours)),
            Fact::FuelM3(Volume::new::<liter>(engine.fuel_l)),
            Fact::Oil(text(engine.oil.name)),
            Fact::OilGrade(text(engine.oil.grade)),
            Fact::OilCategory(text(engine.oil.category)),
            Fact::DrainDistanceM(Length::new::<kilometer>(engine.drain_km)),
            Fact::SumpM3(Volume::new::<liter>(engine.sump_l)),
            Fact::Reason(text(engine.reason)),
        ] {
            self.pass(6, 25);
            self.write(Body::Fact { fact }, None);
        }
    }

    pub(super) fn rating(&mut self, at: &At, look: Look, supersedes: Option<EntryId>) -> EntryId {
        let at = at.clone();
        self.write(Body::Rating { at, look }, supersedes)
    }

    pub(super) fn write(&mut self, body: Body, supersedes: Option<EntryId>) -> EntryId {
        let id = self.id();
        self.written.push(Written {
            second: self.now,
            rater: self.number,
            body,
            supersedes,
            id,
        });
        id
    }

    /// A UUID v7 of the time, a count and the tablet's random end (RFC 9562, section 6.2, method 1). With
    /// new random bits in every id, ids would be a third of what the demo engines weigh when packed.
    fn id(&self) -> EntryId {
        let mut random = self.tail;
        let count = u16::try_from(self.written.len()).unwrap_or(u16::MAX);
        random[..2].copy_from_slice(&count.to_be_bytes());
        EntryId::v7(milliseconds(self.now), random)
    }
}

/// How long one rating takes, in seconds, from and to.
fn seconds(method: Method) -> (i64, i64) {
    match method {
        Method::Area | Method::MeritArea => (14, 40),
        Method::Extent | Method::Count => (5, 13),
        _ => (3, 9),
    }
}

pub(super) fn milliseconds(second: i64) -> u64 {
    u64::try_from(second).unwrap_or(0) * 1000
}

impl Day {
    pub(super) fn second(&self) -> i64 {
        NOVEMBER + (self.of_month - 1) * 86_400 + self.hour * 3600 + self.minute * 60
    }
}

impl Rater {
    /// The rater's tablet, the same on every engine.
    fn device(&self) -> DeviceId {
        DeviceId::v7(milliseconds(SET_UP), draws(self.stream).random())
    }
}

impl Truth {
    /// What somebody sees who is off by so much.
    fn off(&self, by: f64) -> Self {
        match self {
            Self::Level(level) => Self::Level(level + by),
            Self::Patches(patches) => Self::Patches(patches.iter().map(|t| t + by).collect()),
        }
    }
}

/// Refuses data that name nothing in the plan, such as a finding on a cylinder that is not there.
fn check_names(engine: &Engine, plan: &Plan) -> Result<(), DemoError> {
    let findings = engine.findings.iter().map(|f| (f.at, f.look));
    let unseen = engine.unseen.iter().map(|u| (u.at, u.look));
    let slips = engine.slips.iter().map(|s| (s.at, s.look));
    let remarks = engine.remarks.iter().map(|r| (r.at, r.look));
    let gauging = &engine.gauging;
    let worn = gauging.worn.iter().map(|f| (f.at, f.look));
    let unread = gauging.unread.iter().map(|u| (u.at, u.look));
    let again = gauging.again.iter().chain(&gauging.stops_at);
    let again = again.map(|at| (*at, ""));
    let with = gauging.with.iter().map(|w| (w.at, w.look));
    let seen = findings.chain(unseen).chain(slips).chain(remarks);
    let read = { worn.chain(unread).chain(again).chain(with) }.chain(gauging.slips.iter().copied());
    for (at, look) in seen.chain(read) {
        let known = plan.places().any(|(.., place)| {
            place.positions.iter().any(|p| fits(at, p.id.as_str()))
                && (look.is_empty() || place.looks.iter().any(|l| fits(look, l.id.as_str())))
        });
        if !known && !at.is_empty() {
            return Err(DemoError::Unmatched {
                engine: engine.slug,
                name: format!("{at} {look}"),
            });
        }
    }
    Ok(())
}
