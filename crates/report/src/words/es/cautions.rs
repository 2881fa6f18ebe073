//! Cautions where hands are at risk.

use crate::words::cautions::Cautions;

pub(super) const CAUTIONS: Cautions = Cautions {
    title: "Cuidado con las manos",
    reuse: "Si una pieza puede volver a trabajar lo deciden el manual del fabricante del motor, las normas locales y las personas habilitadas, no esta ficha",
    used_oil: "El aceite usado daña la piel y puede causar cáncer: guantes puestos, sin trapos aceitosos en los bolsillos, lavarse con jabón, no con combustible ni disolvente",
    air: "Sin aire comprimido hacia las personas, y para limpiar no más de 2 bar (30 psi), con pantalla y gafas",
    dust: "Carbonilla y hollín viejos: limpiar en húmedo, sin cepillar en seco ni soplar. Las juntas de motores viejos pueden llevar amianto (asbesto)",
    solvents: "Disolventes: aire fresco, lavapiezas cerrado, sin llama; leer la ficha de seguridad",
    lifting: "Izar con eslinga o polipasto de carga suficiente, y nunca ponerse ni meter las manos bajo la carga",
    turning: "Antes de meter las manos: batería desconectada, arranque y aire bloqueados. Otra persona podría girar el motor",
    springs: "Los muelles (resortes) de válvula y de inyector guardan fuerza: gafas y el compresor de muelles adecuado",
    pressure: "Rampas y acumuladores de combustible conservan la presión: descargarla primero",
    edges_rings: "Los cantos de los segmentos cortan como una navaja: guantes anticorte y la pinza de segmentos",
    edges_liners: "El borde superior gastado de una camisa corta: guantes anticorte, y nunca levantar una camisa por él",
    circlips: "Los anillos de seguridad del bulón saltan: gafas y una mano sobre el alojamiento",
    shells: "Los cantos de los semicojinetes cortan y el metal antifricción lleva plomo: guantes, y lavarse antes de comer",
    wheels: "Los álabes del turbocompresor cortan y la carcasa caliente quema: dejar enfriar, nunca hacerlo girar con aire",
    filter: "Un filtro abierto tiene rebabas en los cantos y gotea aceite usado",
    waste: "El aceite usado, los trapos y los filtros van al bidón rotulado, no al desagüe",
};
