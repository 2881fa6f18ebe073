//! Words about what is kept, what is not, and what to do then.

use super::catalogue::words;

words! {
    /// What is kept on the tablet, and what happened to it.
    Safe {
        gone = "This engine is no longer on this tablet: it was deleted in another tab, or the browser cleared it. What is on the screen can still be saved as a file from the Card";
        closed = "This tab has lost its storage: a newer Ringland is open in another tab, or the browser cleared it. Load this page again";
        head_damaged = "The record of this engine cannot be read. Restore a backup to mend it";
        unreadable(n: usize) = "{n} {n?record:records} of this engine cannot be read. {n?It is:They are} kept aside, and everything else is here. A backup or a file of the engine mends it";
        save_damaged = "Save what cannot be read as a file";
        damaged_saved(name: &str) = "What cannot be read of {name} is saved as a file";
        lost(name: &str) = "{name} cannot be opened: its record is damaged. What is left of it is kept aside. Restore a backup to mend it";
        update_hint = "It waits. What is entered stays, and so does what is half typed";
        cleared(n: usize) = "The browser has cleared this tablet's storage: {n} {n?engine is:engines are} no longer here";
        cleared_backup(when: &str, file: &str) = "Last backup: {when}. Its file is called {file}. Restore it and everything in it is back";
        cleared_no_backup = "No backup was saved on this tablet. Card files that were saved or sent elsewhere can be opened one by one";
        cleared_seen = "Go on without them";
        behind(n: usize) = "{n} {n?engine has:engines have} entries that are in no backup";
        last_backup_days(n: usize) = "The last backup is {n} {n?day:days} old";
        stays_unknown = "This browser does not say whether it keeps this storage. It may clear it when space runs short, so back up often";
        draft_back = "What was typed before is here again. It is not kept yet";
    }
}
