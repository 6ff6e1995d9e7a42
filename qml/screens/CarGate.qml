// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What stands between the car and its release, a line each; afterwards, how it went.
//   car;  count: how many things hold it;  holdTouched(): the way to one of them
Rectangle {
    id: root

    required property CarView car
    readonly property int count: holds.count

    signal holdTouched(int operationId, int findingId, string placeId)

    radius: Theme.radius
    color: Theme.paper

    Label {
        id: gateTitle

        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.mm(6) }
        text: !root.car.release.shown ? root.car.outcomeWords
            : holds.count === 0 ? qsTr("Nothing holds it") : qsTr("Holds the release: %1").arg(holds.count)
        role: Label.Reading
        muted: holds.count > 0
        wrapMode: Text.WordWrap
    }

    ListView {
        id: holds

        anchors { left: parent.left; right: parent.right; top: gateTitle.bottom; bottom: parent.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); topMargin: Theme.half; bottomMargin: Theme.half }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.car.holds

        delegate: HoldLine {
            width: holds.width
            onTapped: root.holdTouched(operationId, findingId, placeId)
        }
    }

    EmptyState {
        anchors.centerIn: holds
        width: holds.width - 2 * Theme.margin
        paper: true
        visible: holds.count === 0 && root.car.release.shown
        title: qsTr("Ready for release")
        hint: qsTr("It wants the signature of somebody who may release.")
    }
}
