// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Kiosk
import Ramplight.Theme

// What is read from across the shop: how many cars, and what stands in the bays.
//   shell, tall (the bays stand below the counts);  settle(): takes its height at once
//   signal wanted(string carId): the tile of a taken bay was touched
Item {
    id: root

    required property Shell shell
    required property bool tall

    signal wanted(carId: string)

    function settle(): void {
        counts.forceLayout()
        bays.forceLayout()
    }

    height: root.tall ? counts.height + bays.height + Theme.half : Math.max(counts.height, bays.height)

    Grid {
        id: counts

        readonly property real figureHeight: root.tall ? Theme.mm(21) : bays.tileHeight

        columns: root.tall ? 4 : 2
        columnSpacing: root.tall ? (root.width - prepCount.width - heldCount.width - readyCount.width - lateCount.width) / 3 : Theme.mm(6)
        rowSpacing: Theme.half
        verticalItemAlignment: Grid.AlignVCenter

        CountFigure {
            id: prepCount

            count: root.shell.wall.inPrep
            known: root.shell.wall.loaded
            words: qsTr("in\nprep")
            height: counts.figureHeight
        }

        CountFigure {
            id: readyCount

            count: root.shell.wall.ready
            known: root.shell.wall.loaded
            words: qsTr("ready")
            height: counts.figureHeight
        }

        CountFigure {
            id: heldCount

            count: root.shell.wall.heldBySafety
            known: root.shell.wall.loaded
            words: qsTr("held by\nsafety")
            hatched: true
            height: counts.figureHeight
        }

        CountFigure {
            id: lateCount

            count: root.shell.wall.late
            known: root.shell.wall.loaded
            words: qsTr("late")
            height: counts.figureHeight
        }
    }

    // Two rows beside the counts, or as many as are needed below them; beside them one more row, too,
    // before a stock number is too small for who stands across the shop.
    Grid {
        id: bays

        readonly property real tileHeight: Theme.mm(31)
        readonly property int fitting: Math.floor((width + spacing) / (list.widest() + spacing))
        readonly property int across: root.tall ? 2 : Math.max(1, Math.ceil(list.count / 4), Math.min(Math.ceil(list.count / 2), fitting))

        x: root.tall ? 0 : counts.width + Theme.mm(8)
        y: root.tall ? counts.height + Theme.half : 0
        width: root.width - x
        columns: across
        spacing: Theme.half

        Repeater {
            id: list

            // Counts up when all are made, so that who asks for the widest asks again.
            property int made: 0

            function widest(): real {
                let most = 1
                for (let at = 0; at < list.count && list.made > 0; ++at) {
                    const tile = list.itemAt(at) as BayTile
                    most = Math.max(most, tile !== null ? tile.needed : 0)
                }
                return most
            }

            model: root.shell.bays
            onItemAdded: index => {
                if (index === list.count - 1)
                    ++list.made
            }
            onCountChanged: ++list.made

            delegate: BayTile {
                width: (bays.width - (bays.across - 1) * bays.spacing) / bays.across
                height: bays.tileHeight
                known: root.shell.wall.loaded
                onWanted: root.wanted(carId)
            }
        }
    }
}
