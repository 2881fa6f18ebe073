//! Plans of one's own in the database. What is stored is the plan's file, and its parent whole, so that
//! what differs can be shown whatever becomes of the parent.

use idb::{Query, TransactionMode};
use ringland_card::PlanId;
use serde::{Deserialize, Serialize};
use wasm_bindgen::JsValue;

use super::{
    Db, KeepError,
    db::{PLANS, complete, from_text, to_text},
};

/// A plan as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoredPlan {
    /// Its id on this tablet.
    pub id: PlanId,
    /// The file; the plan in it may still contradict itself.
    pub file: String,
    /// The file of the plan that it was derived from, where that was here.
    pub parent: Option<String>,
    /// Whether it was deleted, until the app is next started.
    pub deleted: bool,
}

impl Db {
    /// All plans in the order in which they were made.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser does not give them.
    pub async fn plans(&self) -> Result<Vec<StoredPlan>, KeepError> {
        let transaction = self
            .database
            .transaction(&[PLANS], TransactionMode::ReadOnly)?;
        let values = transaction
            .object_store(PLANS)?
            .get_all(None, None)?
            .await?;
        Ok(values.iter().filter_map(from_text).collect())
    }

    /// Keeps a plan in place of what was kept of it.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then what was kept before stays.
    pub async fn keep_plan(&self, plan: &StoredPlan) -> Result<(), KeepError> {
        let transaction = self.write(&[PLANS])?;
        transaction
            .object_store(PLANS)?
            .put(&to_text(plan), Some(&key(plan.id)))?
            .await?;
        complete(transaction).await
    }

    /// Takes a plan off this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`]; then it stays.
    pub async fn remove_plan(&self, id: PlanId) -> Result<(), KeepError> {
        let transaction = self.write(&[PLANS])?;
        transaction
            .object_store(PLANS)?
            .delete(Query::Key(key(id)))?
            .await?;
        complete(transaction).await
    }
}

fn key(id: PlanId) -> JsValue {
    JsValue::from_str(&id.to_string())
}
