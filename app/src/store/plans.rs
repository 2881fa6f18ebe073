//! The plans of one's own on this tablet.

use std::rc::Rc;

use leptos::prelude::*;
use ringland_card::{
    Depth, Layout, Plan, PlanId, builtin,
    file::{self, KeptPlan, Origin, PlanFile, PlanFileError},
};
use ringland_report::plan::Mark;

use super::open::CardStore;
use crate::{
    persist::{Db, KeepError, StoredPlan},
    platform,
};

/// A plan of one's own.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnPlan {
    /// Its id on this tablet.
    pub id: PlanId,
    /// The plan, which may still contradict itself, and what it was derived from.
    pub file: PlanFile,
    /// The plan that it was derived from, where that is known.
    pub parent: Option<Plan>,
}

impl OwnPlan {
    /// A plan derived from another, not yet kept.
    pub fn derived(parent: Plan, name: &str) -> Self {
        let mut plan = parent.clone();
        name.clone_into(&mut plan.name);
        "1".clone_into(&mut plan.version);
        Self {
            id: platform::plan_id(),
            file: PlanFile::new(plan, Some(Origin::of(&parent))),
            parent: Some(parent),
        }
    }

    /// The plan.
    pub fn plan(&self) -> &Plan {
        &self.file.plan
    }

    /// Whether engines can be rated under it.
    pub fn is_right(&self) -> bool {
        self.plan().check().is_ok()
    }

    /// The plan that it is shown beside: its parent, or where that is not known the built-in one.
    pub fn beside(&self) -> Plan {
        let plan = self.plan();
        let known = self.parent.clone();
        let built_in = || builtin(&plan.layout, plan.depth).ok();
        known.or_else(built_in).unwrap_or_else(|| plan.clone())
    }

    fn stored(&self, deleted: bool) -> StoredPlan {
        let whole = |plan: &Plan| file::write_plan(&PlanFile::new(plan.clone(), None));
        StoredPlan {
            id: self.id,
            file: file::write_plan(&self.file),
            parent: self.parent.as_ref().map(whole),
            deleted,
        }
    }

    fn of(stored: &StoredPlan) -> Option<Self> {
        let read = |text: &str| file::read_draft(text.as_bytes()).ok();
        Some(Self {
            id: stored.id,
            file: read(&stored.file)?.file,
            parent: stored
                .parent
                .as_deref()
                .and_then(read)
                .map(|opened| opened.file.plan),
        })
    }
}

/// A plan that came in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CamePlan {
    /// Its id on this tablet.
    pub id: PlanId,
    /// Its name and version.
    pub name: (String, String),
    /// How it stands to the plans that were here.
    pub came: PlanCame,
    /// Whether its file was altered after it was written.
    pub altered: bool,
}

/// How a plan that came in stands to those that were here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanCame {
    /// There was none like it.
    New,
    /// It was here, just as it is in the file: nothing changed.
    Known,
    /// One of its name and version was here with other content: both are kept.
    Beside,
}

/// Why a plan's file did not come in. Nothing changed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanNotTaken {
    /// It cannot be read.
    #[error(transparent)]
    File(#[from] PlanFileError),
    /// The browser did not keep it.
    #[error(transparent)]
    Keep(#[from] KeepError),
}

/// The plan that is being edited.
#[derive(Clone, Debug)]
pub struct Draft {
    /// The plan.
    pub own: OwnPlan,
    /// The plan that it is shown beside.
    pub parent: Plan,
    /// Fields whose text is no figure: the plan has what it had before.
    pub unread: Vec<Mark>,
}

#[derive(Debug, Default)]
struct State {
    /// Whether they have been read.
    ready: bool,
    list: Vec<OwnPlan>,
    draft: Option<Draft>,
}

/// A `Copy` handle on the plans.
///
/// Everything is behind one value and one trigger, as each further kind of either is more for the
/// tablet to load.
#[derive(Clone, Copy)]
pub struct Plans {
    state: StoredValue<State>,
    changed: Trigger,
    store: CardStore,
}

/// Provides the plans to everything below.
pub fn provide_plans(store: CardStore) -> Plans {
    let plans = Plans {
        state: StoredValue::new(State::default()),
        changed: Trigger::new(),
        store,
    };
    provide_context(plans);
    plans
}

/// The plans.
pub fn use_plans() -> Plans {
    expect_context()
}

impl Plans {
    fn state(self, act: &mut dyn FnMut(&mut State)) {
        self.state.update_value(|state| act(state));
    }

    /// Whether the plans have been read; the caller runs again when plans come or go.
    pub fn ready(self) -> bool {
        self.changed.track();
        let mut ready = false;
        self.state(&mut |state| ready = state.ready);
        ready
    }

    /// The plans; the caller runs again when plans come or go.
    pub fn all(self) -> Vec<OwnPlan> {
        self.changed.track();
        self.all_now()
    }

    /// The plans, for a caller that is not to be woken.
    pub fn all_now(self) -> Vec<OwnPlan> {
        let mut all = Vec::new();
        self.state(&mut |state| all.clone_from(&state.list));
        all
    }

    /// The plans for a layout that engines can be rated under; wakes as [`Plans::all`].
    pub fn for_layout(self, layout: &Layout) -> Vec<OwnPlan> {
        let mut plans = self.all();
        plans.retain(|own| own.plan().layout == *layout && own.is_right());
        plans
    }

    /// Opens a plan to be edited; whether it is there.
    pub fn open(self, id: PlanId) -> bool {
        let mut found = false;
        self.state(&mut |state| {
            let own = state.list.iter().find(|own| own.id == id).cloned();
            found = own.is_some();
            state.draft = own.map(|own| Draft {
                parent: own.beside(),
                own,
                unread: Vec::new(),
            });
        });
        found
    }

    /// Does something with the plan that is open.
    pub fn draft(self, act: &mut dyn FnMut(&mut Draft)) {
        self.state(&mut |state| state.draft.iter_mut().for_each(&mut *act));
    }

    fn db(self) -> Result<Rc<Db>, KeepError> {
        self.store.db().ok_or(KeepError::Missing)
    }

    /// Reads the plans once the database is open; those that were deleted go.
    pub async fn read_first(self) {
        let stored = match self.db() {
            Ok(db) => db.plans().await.unwrap_or_default(),
            Err(_not_open) => Vec::new(),
        };
        let mut plans = Vec::new();
        for stored in &stored {
            if stored.deleted {
                if let Ok(db) = self.db() {
                    // One that cannot go now goes the next time.
                    let _gone = db.remove_plan(stored.id).await;
                }
            } else {
                plans.extend(OwnPlan::of(stored));
            }
        }
        self.state(&mut |state| {
            state.ready = true;
            state.list = std::mem::take(&mut plans);
        });
        self.changed.notify();
    }

    /// Keeps a plan as it now is, or in the bin until the app is next started.
    ///
    /// # Errors
    ///
    /// [`KeepError`]; then what was kept of it stays.
    pub async fn keep(self, own: OwnPlan, deleted: bool) -> Result<(), KeepError> {
        self.db()?.keep_plan(&own.stored(deleted)).await?;
        let mut came_or_went = true;
        self.state(&mut |state| {
            let known = state.list.iter().position(|known| known.id == own.id);
            match known {
                Some(place) if deleted => drop(state.list.remove(place)),
                Some(place) => {
                    state.list[place] = own.clone();
                    came_or_went = false;
                }
                None if deleted => {}
                None => state.list.push(own.clone()),
            }
        });
        if came_or_went {
            self.changed.notify();
        }
        Ok(())
    }

    /// Takes a plan's file in.
    ///
    /// # Errors
    ///
    /// [`PlanNotTaken`]; then nothing changed.
    pub async fn take(self, bytes: &[u8]) -> Result<CamePlan, PlanNotTaken> {
        let opened = file::read_plan(bytes)?;
        let kept = KeptPlan {
            file: opened.file,
            digest_matches: opened.digest_matches,
            parent: None,
        };
        self.take_kept(kept).await
    }

    /// Takes a plan in that was read, as one out of a backup.
    ///
    /// # Errors
    ///
    /// [`PlanNotTaken`]; then nothing changed.
    pub async fn take_kept(self, kept: KeptPlan) -> Result<CamePlan, PlanNotTaken> {
        let (file, all) = (kept.file, self.all_now());
        let like = |own: &&OwnPlan| {
            let (here, there) = (own.plan(), &file.plan);
            here.name == there.name && here.version == there.version
        };
        let same = all.iter().find(|own| own.file == file);
        let came = match same {
            Some(_) => PlanCame::Known,
            None if all.iter().any(|own| like(&own)) => PlanCame::Beside,
            None => PlanCame::New,
        };
        let came = CamePlan {
            id: same.map_or_else(platform::plan_id, |own| own.id),
            name: (file.plan.name.clone(), file.plan.version.clone()),
            came,
            altered: !kept.digest_matches,
        };
        if came.came != PlanCame::Known {
            let origin = file.derived_from.as_ref();
            let parent = kept.parent.or_else(|| self.parent_of(&file.plan, origin?));
            let id = came.id;
            self.keep(OwnPlan { id, file, parent }, false).await?;
        }
        Ok(came)
    }

    /// The plans as they are kept now, by whichever tab.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not give them.
    pub async fn stored(self) -> Result<Vec<StoredPlan>, KeepError> {
        let mut stored = self.db()?.plans().await?;
        stored.retain(|plan| !plan.deleted);
        Ok(stored)
    }

    /// The plan that a file says it was derived from, where it is here.
    fn parent_of(self, plan: &Plan, origin: &Origin) -> Option<Plan> {
        let mut known: Vec<Plan> = built_in(&plan.layout);
        known.extend(self.all_now().into_iter().map(|own| own.file.plan));
        known
            .into_iter()
            .find(|known| file::plan_digest(known) == origin.digest)
    }

    /// Every plan for a layout but one: the built-in ones and those of one's own; wakes as
    /// [`Plans::all`].
    pub fn others(self, plan: &Plan) -> Vec<Plan> {
        let mut others = built_in(&plan.layout);
        let own = self.for_layout(&plan.layout).into_iter();
        others.extend(own.map(|own| own.file.plan));
        others.retain(|other| other != plan);
        others
    }
}

/// The built-in plans for a layout, the full one first.
fn built_in(layout: &Layout) -> Vec<Plan> {
    let depths = [Depth::Full, Depth::Short].into_iter();
    depths
        .filter_map(|depth| builtin(layout, depth).ok())
        .collect()
}
