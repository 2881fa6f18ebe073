//! Spanish words about what is kept, what is not, and what to do then.

use crate::words::Safe;

pub(super) const SAFE: Safe = Safe {
    gone: "Este motor ya no está en esta tableta: se eliminó en otra pestaña o lo borró el navegador. Lo que muestra la pantalla todavía se puede guardar como archivo desde la Ficha",
    closed: "Esta pestaña ha perdido su almacenamiento: hay un Ringland más nuevo abierto en otra pestaña, o lo borró el navegador. Volver a cargar esta página",
    head_damaged: "El registro de este motor no se puede leer. Restaurar una copia de seguridad para repararlo",
    unreadable: "{n} {n?registro de este motor no se puede leer. Se conserva:registros de este motor no se pueden leer. Se conservan} aparte, y todo lo demás está aquí. Una copia de seguridad o un archivo del motor lo repara",
    save_damaged: "Guardar como archivo lo que no se puede leer",
    damaged_saved: "Lo que no se puede leer de {name} se guardó como archivo",
    lost: "{name} no se puede abrir: su registro está dañado. Lo que queda se conserva aparte. Restaurar una copia de seguridad para repararlo",
    update_hint: "Puede esperar. Lo anotado se conserva, y también lo escrito a medias",
    cleared: "El navegador ha borrado el almacenamiento de esta tableta: {n} {n?motor ya no está:motores ya no están} aquí",
    cleared_backup: "Última copia de seguridad: {when}. Su archivo se llama {file}. Al restaurarlo vuelve todo lo que contiene",
    cleared_no_backup: "En esta tableta no se guardó ninguna copia de seguridad. Los archivos de fichas guardados o enviados a otro lugar se pueden abrir uno por uno",
    cleared_seen: "Seguir sin ellos",
    behind: "{n} {n?motor tiene:motores tienen} anotaciones que no están en ninguna copia de seguridad",
    last_backup_days: "La última copia de seguridad tiene {n} {n?día:días}",
    stays_unknown: "Este navegador no dice si conserva este almacenamiento. Puede borrarlo cuando falte espacio, así que conviene hacer copias a menudo",
    draft_back: "Lo que se escribió antes está aquí de nuevo. Todavía no está guardado",
};
