// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What stands between the car and its release, a line each; afterwards, how it went.
//   car;  count: how many things hold it
//   holdTouched(): the way to one of them;  twiceTouched(): to the other entry of the car
Rectangle {
    id: root

    required property CarView car
    readonly property int count: holds.count

    signal holdTouched(string kind, int operationId, int findingId, string placeId, string opensKind)
    signal twiceTouched

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

    Touchable {
        id: twice

        anchors { left: parent.left; right: parent.right; top: gateTitle.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); topMargin: visible ? Theme.half : 0 }
        visible: root.car.sameVinStock.length > 0
        implicitHeight: visible ? Math.max(Theme.touch, twiceWords.height + 2 * Theme.half) : 0
        spoken: twiceWords.text
        onTapped: root.twiceTouched()

        Rectangle {
            anchors.fill: parent
            radius: Theme.radius
            color: twice.pressed ? Theme.rule : Theme.sunk
        }

        Label {
            id: twiceWords

            anchors { left: parent.left; right: parent.right; margins: Theme.module; verticalCenter: parent.verticalCenter }
            text: qsTr("%1 has the same VIN. Is this one car, entered twice? Join them.").arg(root.car.sameVinStock)
            wrapMode: Text.WordWrap
        }
    }

    ListView {
        id: holds

        anchors { left: parent.left; right: parent.right; top: twice.bottom; bottom: parent.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); topMargin: Theme.half; bottomMargin: Theme.half }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.car.holds

        delegate: HoldLine {
            width: holds.width
            onTapped: root.holdTouched(kind, operationId, findingId, placeId, opensKind)
        }
    }

    MoreBelow {
        list: holds
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
