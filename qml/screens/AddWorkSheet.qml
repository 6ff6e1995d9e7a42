// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Work out of the catalogue that no finding asked for.
//   car
//   openAt(place, kind): of a place, or of the whole car when it is empty; kind: chosen already
DialogSheet {
    id: root

    required property CarView car
    readonly property Component heading: Qt.createComponent("ListHeading.qml")
    property string place: ""
    readonly property list<string> usual: [qsTr("seen on the car"), qsTr("heard on the road test"), qsTr("sales asks for it"), qsTr("due by the service book")]
    // It is opened because something holds the car.
    property bool holds: false

    title: place.length > 0 && car.places.currentTitle.length > 0 ? qsTr("Add work: %1").arg(car.places.currentTitle) : qsTr("Add work to %1").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(320), width - 2 * Theme.margin)

    function openAt(place: string, kind: string): void {
        root.place = place === "car" ? "" : place
        root.car.offerKinds(root.place.length > 0 ? root.place : "car")
        root.car.places.clear()
        if (root.place.length > 0)
            root.car.places.choose(root.place)
        why.clear()
        root.holds = kind.length > 0
        root.shown = true
        if (kind.length === 0)
            return
        root.car.kinds.choose(kind)
        if (root.car.kinds.currentRow >= 0)
            kinds.positionViewAtIndex(root.car.kinds.currentRow, ListView.Center)
    }

    Column {
        width: parent.width
        spacing: Theme.module

        ListView {
            id: kinds

            width: parent.width
            height: Math.max(Theme.mm(60), root.height - Theme.mm(176))
            clip: true
            model: root.car.kinds
            boundsBehavior: Flickable.DragOverBounds
            section.property: "group"
            section.delegate: root.heading

            delegate: Touchable {
                id: kind

                required property string choiceId
                required property string title
                required property bool chosen

                width: kinds.width
                height: Theme.touch
                spoken: title
                onTapped: root.car.kinds.choose(kind.choiceId)

                Rectangle {
                    anchors.fill: parent
                    radius: Theme.radius
                    color: kind.chosen ? Theme.ink : kind.pressed ? Theme.sunk : "transparent"
                }

                Label {
                    anchors { left: parent.left; right: parent.right; margins: Theme.module; verticalCenter: parent.verticalCenter }
                    text: kind.title
                    color: kind.chosen ? Theme.paper : Theme.ink
                    elide: Text.ElideRight
                }

                Rectangle {
                    anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
                    height: Theme.line
                    visible: !kind.chosen
                    color: Theme.rule
                }
            }
        }

        ReasonChips {
            id: why

            width: parent.width
            reasons: root.holds ? [qsTr("it holds the release"), ...root.usual] : root.usual
            label: root.place.length > 0 ? qsTr("Why") : qsTr("Why, for the whole car (for one place touch it on the drawing first)")
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.dismissed()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Add it")
            available: root.car.kinds.current.length > 0 && why.reason.length > 0 && !root.car.ask.busy
            reason: root.car.kinds.current.length > 0 ? qsTr("why") : qsTr("which work")
            onTapped: root.car.openOperation(root.car.kinds.current, root.place.length > 0 ? root.place : "car", why.reason)
        }
    ]
}
