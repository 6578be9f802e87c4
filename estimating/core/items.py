"""What can be bought, hired, done or paid, apart from sized lumber: code, words, unit, where it is booked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Item:
    """One priceable thing. `unit` is empty where it follows the units of the takeoff."""

    code: str
    description: str
    unit: str
    kind: str
    cost_code: str

    @property
    def division(self) -> str:
        return self.cost_code[:2]


_ROWS = """
engineer-design       | Structural design and sealed drawings                    | lot   | fee      | 01-10
engineer-review       | Field review and letter by the engineer                  | lot   | fee      | 01-10
permit-fee            | Building permit fee                                      | lot   | fee      | 01-20
inspection-attendance | Labour: attend an inspection                             | hour  | labour   | 01-20
hazard-sampling       | Sampling for asbestos and lead in lining and finishes    | lot   | fee      | 01-20
dust-screen           | Dust screen, sheet and poles                             |       | material | 01-30
floor-protection      | Floor and stair protection board                         |       | material | 01-30
air-scrubber          | Filtered air scrubber, hire                              | day   | rental   | 01-30
labour-protect        | Labour: protection and dust screens, up and down         | hour  | labour   | 01-30
labour-supervise      | Labour: supervision                                      | hour  | labour   | 01-40
labour-clean          | Labour: daily and final clean-up                         | hour  | labour   | 01-40
delivery              | Delivery of material                                     | trip  | fee      | 01-50
delivery-long         | Delivery of long pieces                                  | trip  | fee      | 01-50
beam-lift             | Lifting gear for the beam, hire                          | day   | rental   | 01-50
shore-shims           | Wedges and shims for shores, box                         | box   | material | 01-60
shoring-engineered    | Shoring by the engineer's own design                     | lot   | subtrade | 01-60
labour-shore          | Labour: build, check and take down shoring               | hour  | labour   | 01-60
labour-demolish       | Labour: take out the wall and carry out                  | hour  | labour   | 02-10
disposal              | Disposal of debris, loose                                |       | fee      | 02-10
bin                   | Debris bin, delivered and hauled                         | trip  | rental   | 02-10
slab-saw              | Floor saw with dust control, hire                        | day   | rental   | 03-20
labour-slab-cut       | Labour: cut and break out the slab                       | hour  | labour   | 03-20
labour-slab-patch     | Labour: patch the slab                                   | hour  | labour   | 03-20
vapour-patch          | Vapour barrier patch under the slab                      |       | material | 03-20
concrete-bag-80lb     | Concrete mix, 80 lb bag                                  | bag   | material | 03-10
concrete-bag-30kg     | Concrete mix, 30 kg bag                                  | bag   | material | 03-10
concrete-ready        | Ready-mixed concrete                                     |       | material | 03-10
concrete-short-load   | Short-load charge for ready-mixed concrete               | trip  | fee      | 03-10
labour-place          | Labour: mix, place and finish concrete                   | hour  | labour   | 03-10
labour-dig            | Labour: dig by hand and carry out                        | hour  | labour   | 31-10
bar-chair             | Chair for reinforcing bars                               | each  | material | 03-10
labour-bars           | Labour: cut, place and tie bars                          | hour  | labour   | 03-10
steel-w               | Structural steel, W shape                                | lb    | material | 05-20
steel-c               | Structural steel, channel                                | lb    | material | 05-20
steel-hss             | Structural steel, rectangular tube                       | lb    | material | 05-20
steel-pipe            | Structural steel, pipe or round tube                     | lb    | material | 05-20
steel-plate           | Steel plate, cut to size                                 | lb    | material | 05-20
steel-plates          | Bearing, cap and base plates of a steel member           | each  | material | 05-20
steel-shop            | Shop work: cut, drill and weld a steel member            | lot   | subtrade | 05-20
steel-hole            | Hole drilled in steel                                    | each  | subtrade | 05-20
steel-prime           | Primer on steel, in the shop                             |       | material | 05-20
anchor-set            | Anchor bolt with nut and washer                          | each  | material | 05-10
crane                 | Crane or telehandler with operator, half a day           | lot   | rental   | 01-50
labour-carry          | Labour: carry long and heavy pieces in                   | hour  | labour   | 05-20
labour-steel          | Labour: set and fix steel                                | hour  | labour   | 05-20
nail-box              | Nails for ply fastening                                  | lb    | material | 05-10
bolt-set              | Bolt with nut and two washers                            | each  | material | 05-10
ply-fastener          | Structural screw or bolt of the maker's ply pattern      | each  | material | 05-10
ply-fastening         | Ply fastening of the beam by the maker's sheet           | lot   | material | 05-10
hanger                | Joist hanger with its nails                              | each  | material | 05-10
post-stated           | Adjustable or pipe post by its maker's paper             | each  | material | 05-10
post-base             | Post base connector                                      | each  | material | 05-10
post-cap              | Post cap connector                                       | each  | material | 05-10
tie-strap             | Strap across the beam for a cut rafter tie               | each  | material | 05-10
plate-strap           | Strap across a cut top plate                             | each  | material | 05-10
nails-general         | Framing nails                                            | lb    | material | 05-10
labour-beam           | Labour: assemble and set the beam                        | hour  | labour   | 06-10
labour-post           | Labour: build and set posts                              | hour  | labour   | 06-20
labour-hanger         | Labour: hang joists in hangers                           | hour  | labour   | 06-10
labour-frame          | Labour: frame the ends of the opening, plates and blocking | hour  | labour   | 06-30
labour-strap          | Labour: fix straps                                       | hour  | labour   | 06-30
board-half-4x8        | Gypsum board 1/2 in, 4 ft x 8 ft                         | sheet | material | 09-10
board-screws          | Board screws                                             | lb    | material | 09-10
board-tape            | Joint tape                                               |       | material | 09-10
board-compound        | Joint compound                                           | lb    | material | 09-10
corner-bead           | Corner bead                                              |       | material | 09-10
labour-board          | Labour: hang, tape and finish board                      | hour  | labour   | 09-10
floor-covering        | Floor covering to match                                  |       | material | 09-20
labour-floor          | Labour: patch the floor                                  | hour  | labour   | 09-20
paint                 | Paint and primer                                         |       | material | 09-30
labour-paint          | Labour: paint                                            | hour  | labour   | 09-30
trim                  | Baseboard and trim to match                              |       | material | 09-30
labour-trim           | Labour: fit trim                                         | hour  | labour   | 09-30
plumbing-move         | Move pipes and vents in the wall                         | lot   | subtrade | 22-10
duct-move             | Move ducts in the wall                                   | lot   | subtrade | 23-10
electrical-move       | Move wiring, switches and outlets in the wall            | lot   | subtrade | 26-10
alarm                 | Smoke or carbon monoxide alarm, fitted                   | each  | subtrade | 26-10
"""

ITEMS: Mapping[str, Item] = MappingProxyType(
    {
        parts[0]: Item(parts[0], parts[1], parts[2], parts[3], parts[4])
        for parts in ([cell.strip() for cell in row.split("|")] for row in _ROWS.strip().splitlines())
    }
)
REBAR_CODE = "rebar-{bar}"
