// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The drawing of a walk-round: the car laid open, or a scheme of wheels, cabin or systems. Every
// place can be touched: on the drawing, or on a field beside it with a line to where it is.
//   walk;  below it what is sound in one touch
Rectangle {
    id: root

    required property WalkRound walk
    readonly property bool fielded: walk.opened
    readonly property real fieldWidth: Theme.mm(36)
    // What the drawing would take at this height.
    readonly property real wantedWidth: fielded ? room.height * outline.aspect + 2 * (fieldWidth + Theme.mm(10)) : room.height * outline.aspect + 2 * Theme.module

    radius: Theme.radius
    color: Theme.paper

    Item {
        id: room

        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: sounds.top; margins: Theme.module; bottomMargin: Theme.module }
    }

    CarOutline {
        id: outline

        readonly property real widest: room.width - (root.fielded ? 2 * (root.fieldWidth + Theme.mm(6)) : 0)

        anchors.centerIn: room
        height: Math.min(room.height, widest / aspect)
        width: height * aspect
        shape: root.walk.drawing
        opened: root.walk.opened
        absent: root.walk.absent
        among: root.walk.among
        marks: root.walk.marks
    }

    // A finger is half as wide again outside the car, where nothing else lies.
    MouseArea {
        anchors.fill: room
        onClicked: mouse => {
            const at = mapToItem(outline, mouse.x, mouse.y)
            const place = outline.placeAt(at.x, at.y, Theme.mm(9))
            root.walk.touch(root.fielded && place.startsWith("tyre-") ? place.replace("tyre-", "wheel-") : place)
        }
    }

    // The place that was touched.
    Rectangle {
        readonly property point spot: root.walk.place.length > 0 && outline.width > 0 ? outline.spotOf(root.walk.place) : Qt.point(-1, -1)

        visible: spot.x >= 0
        x: outline.x + spot.x - width / 2
        y: outline.y + spot.y - height / 2
        width: Theme.mm(16)
        height: width
        radius: width / 2
        color: "transparent"
        border.width: Theme.thickLine
        border.color: Theme.accent
    }

    Repeater {
        model: root.walk.places

        delegate: Item {
            id: spot

            required property string placeId
            required property string title
            required property int mark
            required property int side
            required property int order
            required property int fields
            required property bool chosen

            // Follows the outline when that is drawn anew.
            readonly property rect box: outline.width > 0 && outline.shape.length > 0 ? outline.boxOf(placeId) : Qt.rect(0, 0, 0, 0)
            readonly property point surest: outline.width > 0 && outline.shape.length > 0 ? outline.spotOf(placeId) : Qt.point(-1, -1)
            readonly property point middle: Qt.point(outline.x + surest.x, outline.y + surest.y)

            anchors.fill: parent

            WalkRoundField {
                id: field

                visible: spot.side !== 0
                x: spot.side < 0 ? room.x : room.x + room.width - width
                y: room.y + (spot.fields > 1 ? spot.order * (room.height - height) / (spot.fields - 1) : (room.height - height) / 2)
                width: root.fieldWidth
                text: spot.title
                mark: spot.mark
                selected: spot.chosen
                onTapped: root.walk.touch(spot.placeId)
            }

            // From the field to where it is on the car.
            Rectangle {
                readonly property real fromX: spot.side < 0 ? field.x + field.width : field.x
                readonly property real fromY: field.y + field.height / 2
                readonly property real dx: spot.middle.x - fromX
                readonly property real dy: spot.middle.y - fromY

                visible: spot.side !== 0 && spot.box.width > 0
                x: fromX
                y: fromY - height / 2
                width: Math.sqrt(dx * dx + dy * dy)
                height: Theme.line
                transformOrigin: Item.Left
                rotation: Math.atan2(dy, dx) * 180 / Math.PI
                antialiasing: true
                color: spot.chosen ? Theme.accent : Theme.paperLine
            }

            Rectangle {
                visible: spot.side !== 0 && spot.box.width > 0
                x: spot.middle.x - width / 2
                y: spot.middle.y - height / 2
                width: Theme.mm(2.2)
                height: width
                radius: width / 2
                color: Theme.paper
                border.width: Theme.line
                border.color: spot.chosen ? Theme.accent : Theme.ink
            }

            // On a scheme every field says what it is.
            Rectangle {
                visible: !root.fielded && spot.box.width > 0 && !tyre.measured
                x: spot.middle.x - width / 2
                y: spot.middle.y - height / 2
                width: name.contentWidth + Theme.half
                height: name.contentHeight + Theme.half / 2
                radius: Theme.radius
                color: spot.mark === Wall.Outstanding ? Theme.ink : Theme.paper

                Label {
                    id: name

                    anchors.centerIn: parent
                    width: Math.min(spot.box.width - Theme.half, Theme.mm(40))
                    text: spot.title
                    role: Label.Detail
                    color: spot.mark === Wall.Outstanding ? Theme.paper : Theme.ink
                    horizontalAlignment: Text.AlignHCenter
                    wrapMode: Text.WordWrap
                }
            }

            QtObject {
                id: tyre

                readonly property bool measured: root.walk.view === "wheels" && spot.placeId.startsWith("tyre-")
            }
        }
    }

    // The tyre plan: what was measured, and where the next reading goes.
    Repeater {
        model: root.walk.view === "wheels" ? root.walk.tyres.tyres : null

        delegate: WalkRoundTyre {
            readonly property rect box: outline.width > 0 ? outline.boxOf(placeId) : Qt.rect(0, 0, 0, 0)

            x: outline.x + box.x
            y: outline.y + box.y
            width: box.width
            height: box.height
        }
    }

    Row {
        id: sounds

        readonly property bool shown: root.walk.finishOffer.shown

        anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.module }
        height: Theme.touch
        spacing: Theme.gap

        ActionButton {
            visible: sounds.shown && root.walk.leftOnLeft > 0
            paper: true
            text: qsTr("%1 sound: %2").arg(root.walk.leftSideWords).arg(root.walk.leftOnLeft)
            onTapped: root.walk.foundSideSound(true)
        }

        ActionButton {
            visible: sounds.shown && root.walk.leftHere > 0
            paper: true
            text: qsTr("All the rest here is sound: %1").arg(root.walk.leftHere)
            onTapped: root.walk.foundViewSound()
        }

        ActionButton {
            visible: sounds.shown && root.walk.leftOnRight > 0
            paper: true
            text: qsTr("%1 sound: %2").arg(root.walk.rightSideWords).arg(root.walk.leftOnRight)
            onTapped: root.walk.foundSideSound(false)
        }

        Label {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.walk.leftHere === 0
            text: qsTr("Every place here was looked at.")
            muted: true
        }
    }
}
