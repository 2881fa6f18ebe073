//! Scales, methods, regimes, levels and states.

use crate::words::terms::{Levels, Methods, Regimes, Scales, States};

pub(super) const SCALES: Scales = Scales {
    blocked: "Área obstruida",
    contact_barrel: "Banda de contacto, cara abombada",
    contact_oil: "Contacto, segmento de aceite",
    contact_taper: "Banda de contacto, cara cónica",
    crosshatch: "Bruñido aún visible",
    damaged: "Área dañada",
    deposit: "Depósito por área",
    grade: "Grado de desgaste",
    land_deposit: "Depósito por área, mesetas",
    leak: "Fuga",
    marks: "Marcas de mecanizado aún visibles",
    mobility: "Movilidad del segmento",
    overlay: "Recubrimiento restante",
    polished: "Área pulida",
    roller: "Giro del rodillo",
    sludge: "Lodo por área",
    step: "Escalón",
    tracks: "Surcos de partículas",
    varnish: "Barniz por área",
    whole: "Entero o roto",
};

pub(super) const METHODS: Methods = Methods {
    grade: "Grado de desgaste",
    area: "Depósito por área",
    merit_area: "Lodo o barniz por área",
    extent: "Por ciento",
    count: "Cantidad",
    state: "Estado",
    measured: "Medida tomada",
};

pub(super) const REGIMES: Regimes = Regimes {
    boundary: "Lubricación límite",
    mixed: "Lubricación mixta",
    full_film: "Película completa",
    none: "No es un contacto lubricado",
};

pub(super) const LEVELS: Levels = Levels {
    clean: "Limpio",
    heavy_carbon: "Carbonilla gruesa",
    medium_carbon: "Carbonilla media",
    light_carbon: "Carbonilla ligera",
    black_lacquer: "Laca negra",
    dark_brown_lacquer: "Laca marrón oscuro",
    amber_lacquer: "Laca ámbar",
    light_amber_lacquer: "Laca ámbar claro",
    very_light_amber_lacquer: "Laca ámbar muy claro",
    packed_sludge: "Lodo compacto",
    heavy_sludge: "Lodo grueso",
    medium_sludge: "Lodo medio",
    light_sludge: "Lodo ligero",
    thin_sludge: "Lodo fino",
    sludge_film: "Película de lodo",
    trace_of_sludge: "Traza de lodo",
    black_varnish: "Barniz negro",
    dark_brown_varnish: "Barniz marrón oscuro",
    brown_varnish: "Barniz marrón",
    amber_varnish: "Barniz ámbar",
    light_amber_varnish: "Barniz ámbar claro",
    very_light_amber_varnish: "Barniz ámbar muy claro",
    trace_of_varnish: "Traza de barniz",
};

/// The noun is *estado*, so they are masculine whatever was looked at.
pub(super) const STATES: States = States {
    none: "Ninguno",
    seen: "Se ve, no se nota",
    felt: "Se nota con la uña",
    measured: "Tan hondo que se puede medir",
    free: "Libre",
    rough: "Áspero",
    seized: "Agarrotado",
    sluggish: "Perezoso",
    cold_stuck: "Pegado en frío",
    hot_stuck: "Pegado en caliente",
    whole: "Entero",
    chipped: "Mellado",
    broken: "Roto",
    dry: "Seco",
    damp: "Húmedo",
    wet: "Mojado",
};
