pub(crate) const _X: () = ();
