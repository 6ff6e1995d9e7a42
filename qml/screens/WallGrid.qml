// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Kiosk
import Ramplight.Theme

// The cards of the wall.
//   shell, navigator
GridView {
    id: root

    required property Shell shell
    required property Navigator navigator

    // Cards fill the grid without a rest: as many columns and rows as have room. Rather two rows of
    // lower ones than a single one, when lines below take their room.
    readonly property int columns: Math.max(1, Math.floor((width + Theme.gap) / Theme.mm(118)))
    readonly property int rowsInSight: root.roomy > 1 ? root.roomy : Math.max(1, Math.floor((height + Theme.gap) / Theme.mm(80)))
    readonly property int roomy: Math.floor((height + Theme.gap) / Theme.mm(92))
    // Few cards take the room of the rows that they leave empty, as far as a card can use it.
    readonly property int rowsWanted: count > 0 ? Math.ceil(count / root.columns) : root.rowsInSight
    readonly property real share: (height + Theme.gap) / root.rowsInSight
    readonly property real roomForFew: Math.min((height + Theme.gap) / root.rowsWanted, Theme.mm(124))

    clip: true
    model: root.shell.wall
    cellWidth: Math.floor(width / root.columns)
    cellHeight: Math.floor(Math.max(root.share, root.roomForFew))
    cacheBuffer: cellHeight
    reuseItems: true
    boundsBehavior: Flickable.DragOverBounds
    snapMode: GridView.NoSnap

    delegate: CarCard {
        required property int index

        // When its row goes away Qt (6.4) keeps the card for another, and leaves it where it was.
        visible: index >= 0
        width: root.cellWidth - Theme.gap
        height: root.cellHeight - Theme.gap
        kept: root.shell.server.waiting > 0 && root.shell.server.keepsCar(carId)
        onWanted: root.navigator.openCar(carId)
    }

    Rectangle {
        visible: root.contentHeight > root.height
        y: root.contentY + root.visibleArea.yPosition * root.height
        parent: root.contentItem
        x: root.width - width - Theme.line
        width: Theme.mm(1)
        height: Math.max(Theme.touch, root.visibleArea.heightRatio * root.height)
        radius: width / 2
        color: Theme.groundLine
    }
}
