// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The camera's picture with the shutter; the picture before the work lies over it, see-through, so
// that the next one is taken from where the first was. A picture that was taken is held still,
// looked at, and kept or taken again.
//   camera (the shell's), active, guide (address of the picture to take it over; empty: none)
//   fault: why no picture comes;  there: a camera is connected, once look() was asked
//   held: a picture is held still
//   room: the height that there is
//   signal taken(var image)
Item {
    id: root

    required property Camera camera
    property bool active: false
    property string guide: ""
    property real room: Theme.mm(150)
    readonly property string fault: feed.fault
    readonly property bool there: feed.there
    readonly property bool held: feed.held
    // Something speaks against the picture that is held.
    readonly property bool doubtful: feed.warnings.length > 0
    // The tools stand beside the picture, or under it where the screen is tall.
    readonly property bool beside: width > Theme.mm(280)
    readonly property real toolsWidth: beside ? Theme.mm(72) : width
    readonly property real frameWidth: beside ? width - toolsWidth - Theme.mm(6) : width
    readonly property real frameHeight: Math.max(Theme.mm(40), Math.min(frameWidth / feed.proportion,
        beside ? room : room - toolsBelow - Theme.module))
    // Under the picture: does not ask how high that is.
    readonly property real toolsBelow: above.height + (above.height > 0 ? Theme.module : 0) + deed.height

    signal taken(var image)

    function look(): bool {
        return feed.look()
    }

    implicitHeight: beside ? Math.max(stage.height, tools.height) : tools.y + tools.height

    onActiveChanged: {
        if (root.active) {
            overlay.shown = true
            overlay.strong = false
        }
    }

    Rectangle {
        id: stage

        width: root.frameWidth
        height: root.frameHeight
        color: "#141312"
        radius: Theme.line

        CameraFeed {
            id: feed

            anchors.centerIn: parent
            width: Math.min(parent.width, Math.floor(parent.height * proportion))
            height: Math.floor(width / proportion)
            camera: root.camera
            active: root.active
            onGrabbed: image => root.taken(image)
        }

        Image {
            id: overlay

            property bool shown: true
            property bool strong: false

            anchors.fill: feed
            visible: feed.live && !feed.held && shown && root.guide.length > 0
            opacity: strong ? 0.65 : 0.35
            source: feed.live ? root.guide : ""
            // Read at the size that is drawn, so that a frame only has to lay it over.
            sourceSize.width: feed.width
            sourceSize.height: feed.height
            asynchronous: true
            smooth: false
            fillMode: Image.PreserveAspectFit
        }

        Waiting {
            anchors.centerIn: parent
            visible: !feed.live
            text: qsTr("The camera starts")
        }
    }

    Item {
        id: tools

        x: root.beside ? root.frameWidth + Theme.mm(6) : 0
        y: root.beside ? 0 : stage.height + Theme.module
        width: root.toolsWidth
        height: root.beside ? Math.max(stage.height, above.height + Theme.module + deed.height)
            : root.toolsBelow

        Flow {
            id: above

            width: parent.width
            spacing: Theme.gap
            visible: !feed.held

            ChoiceChip {
                visible: root.guide.length > 0
                text: qsTr("Before over it")
                selected: overlay.shown
                onTapped: overlay.shown = !overlay.shown
            }

            ChoiceChip {
                visible: root.guide.length > 0 && overlay.shown
                text: qsTr("Clearer")
                selected: overlay.strong
                onTapped: overlay.strong = !overlay.strong
            }

            ChoiceChip {
                visible: feed.hasLamp
                text: qsTr("Light")
                selected: feed.lamp
                onTapped: feed.lamp = !feed.lamp
            }

            ActionButton {
                visible: feed.hasExposure
                paper: true
                text: qsTr("Darker")
                available: feed.exposure > -4
                onTapped: feed.exposure -= 1
            }

            ActionButton {
                visible: feed.hasExposure
                paper: true
                text: qsTr("Brighter")
                available: feed.exposure < 4
                onTapped: feed.exposure += 1
            }
        }

        Column {
            id: deed

            anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom }
            width: root.beside ? parent.width : Math.min(parent.width, Theme.mm(150))
            spacing: Theme.module

            ShutterButton {
                anchors.horizontalCenter: parent.horizontalCenter
                visible: !feed.held
                available: feed.live
                text: qsTr("Take the photo")
                onTapped: feed.take()
            }

            Repeater {
                model: feed.warnings

                delegate: Label {
                    required property string modelData

                    width: deed.width
                    text: modelData
                    wrapMode: Text.WordWrap
                }
            }

            ActionButton {
                width: parent.width
                visible: feed.held
                paper: true
                kind: root.doubtful ? ActionButton.Accent : ActionButton.Plain
                text: qsTr("Take it again")
                onTapped: feed.takeAgain()
            }

            ActionButton {
                width: parent.width
                height: Theme.touchSafety
                visible: feed.held
                paper: true
                kind: root.doubtful ? ActionButton.Plain : ActionButton.Accent
                symbol: Icon.Tick
                text: qsTr("Keep the photo")
                onTapped: feed.keep()
            }
        }
    }
}
