//! Size sheets on this tablet. What is stored is the sheet's file.

use idb::{Query, TransactionMode};
use ringland_card::{SizesId, file, gauging::SizeSheet};
use serde::{Deserialize, Serialize};
use wasm_bindgen::JsValue;

use super::{
    Db, KeepError,
    db::{SHEETS, complete, from_text, to_text},
};
use crate::platform;

/// A sheet as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoredSheet {
    /// Its id on this tablet.
    pub id: SizesId,
    /// The file.
    pub file: String,
}

impl Db {
    /// All sheets in the order in which they were made.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser does not give them.
    pub async fn sheets(&self) -> Result<Vec<StoredSheet>, KeepError> {
        let transaction = self
            .database
            .transaction(&[SHEETS], TransactionMode::ReadOnly)?;
        let values = transaction
            .object_store(SHEETS)?
            .get_all(None, None)?
            .await?;
        Ok(values.iter().filter_map(from_text).collect())
    }

    /// Keeps a sheet in place of what was kept of it.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then what was kept before stays.
    pub async fn keep_sheet(&self, sheet: &StoredSheet) -> Result<(), KeepError> {
        let transaction = self.write(&[SHEETS])?;
        transaction
            .object_store(SHEETS)?
            .put(&to_text(sheet), Some(&key(sheet.id)))?
            .await?;
        complete(transaction).await
    }

    /// Keeps a sheet that came in a file; whether it is new here.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then it is not kept.
    pub async fn add_sheet(&self, sheet: &SizeSheet) -> Result<bool, KeepError> {
        let file = file::write_sizes(sheet);
        if self.sheets().await?.iter().any(|kept| kept.file == file) {
            return Ok(false);
        }
        let id = platform::sizes_id();
        self.keep_sheet(&StoredSheet { id, file }).await?;
        Ok(true)
    }

    /// Takes a sheet off this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`]; then it stays.
    pub async fn remove_sheet(&self, id: SizesId) -> Result<(), KeepError> {
        let transaction = self.write(&[SHEETS])?;
        transaction
            .object_store(SHEETS)?
            .delete(Query::Key(key(id)))?
            .await?;
        complete(transaction).await
    }
}

fn key(id: SizesId) -> JsValue {
    JsValue::from_str(&id.to_string())
}
