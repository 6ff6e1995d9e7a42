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

        columns: root.tall ? 4 : 2
        columnSpacing: root.tall ? (root.width - prepCount.width - heldCount.width - readyCount.width - lateCount.width) / 3 : Theme.mm(7)
        rowSpacing: Theme.half
        verticalItemAlignment: Grid.AlignVCenter

        CountFigure {
            id: prepCount

            count: root.shell.wall.inPrep
            words: qsTr("in\nprep")
            height: bays.tileHeight
        }

        CountFigure {
            id: readyCount

            count: root.shell.wall.ready
            words: qsTr("ready")
            height: bays.tileHeight
        }

        CountFigure {
            id: heldCount

            count: root.shell.wall.heldBySafety
            words: qsTr("held by\nsafety")
            hatched: true
            height: bays.tileHeight
        }

        CountFigure {
            id: lateCount

            count: root.shell.wall.late
            words: qsTr("late")
            height: bays.tileHeight
        }
    }

    // Two rows beside the counts, or as many as are needed below them.
    Grid {
        id: bays

        readonly property real tileHeight: Theme.mm(26)
        readonly property int across: root.tall ? 2 : Math.max(1, Math.ceil(list.count / 2))

        x: root.tall ? 0 : counts.width + Theme.mm(8)
        y: root.tall ? counts.height + Theme.half : 0
        width: root.width - x
        columns: across
        spacing: Theme.half

        Repeater {
            id: list

            model: root.shell.bays

            delegate: BayTile {
                width: (bays.width - (bays.across - 1) * bays.spacing) / bays.across
                height: bays.tileHeight
                onWanted: root.wanted(carId)
            }
        }
    }
}
