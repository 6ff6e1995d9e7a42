// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Drawing

// A photograph with what it shows, or the place where one is still to be taken.
//   source (empty: still to be taken), caption ("before 09:14"), prompt ("photograph after")
//   gone ("removed after 6 years"): there was one
//   required: the work cannot be closed without it;  selected: a tick, and a thick edge
//   signal tapped()
Touchable {
    id: root

    property url source
    property string caption: ""
    property string prompt: ""
    property string gone: ""
    property bool required: false
    property bool selected: false

    readonly property bool empty: gone.length === 0 && picture.status === Image.Null

    spoken: empty ? prompt : gone.length > 0 ? caption + ", " + gone : caption
    implicitWidth: Theme.mm(44)
    implicitHeight: Theme.mm(36)

    DashedFrame {
        anchors.fill: parent
        visible: root.empty
        colour: Theme.accent
        radius: Theme.radius
        lineWidth: Theme.thickLine
    }

    Column {
        anchors.centerIn: parent
        visible: root.empty
        width: parent.width - 2 * Theme.module
        spacing: Theme.half

        Icon {
            anchors.horizontalCenter: parent.horizontalCenter
            symbol: Icon.Camera
            colour: Theme.accent
            width: Theme.mm(9)
            height: Theme.mm(9)
        }

        Label {
            width: parent.width
            text: root.prompt
            role: Label.Detail
            color: Theme.accent
            strong: root.required
            horizontalAlignment: Text.AlignHCenter
            wrapMode: Text.WordWrap
        }
    }

    Rectangle {
        anchors.fill: parent
        visible: !root.empty
        color: Theme.sunk
        clip: true

        Image {
            id: picture

            anchors.fill: parent
            source: root.source
            sourceSize.width: root.width * 2
            sourceSize.height: root.height * 2
            asynchronous: true
            fillMode: Image.PreserveAspectCrop
        }

        Label {
            anchors.centerIn: parent
            visible: root.gone.length > 0 || picture.status === Image.Error
            width: parent.width - 2 * Theme.half
            text: root.gone.length > 0 ? root.gone : qsTr("cannot be shown")
            role: Label.Detail
            horizontalAlignment: Text.AlignHCenter
            wrapMode: Text.WordWrap
        }

        Rectangle {
            anchors { left: parent.left; bottom: parent.bottom; margins: Theme.half }
            visible: root.caption.length > 0
            width: Math.min(words.implicitWidth + Theme.module, parent.width - 2 * Theme.half)
            height: words.implicitHeight + Theme.half
            color: Theme.paper
            radius: Theme.radius / 2

            Label {
                id: words

                anchors { left: parent.left; right: parent.right; leftMargin: Theme.half; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
                text: root.caption
                role: Label.Detail
                elide: Text.ElideRight
            }
        }
    }

    Rectangle {
        anchors.fill: parent
        visible: root.activeFocus || root.selected || (root.pressed && !root.empty)
        color: "transparent"
        border.width: Theme.thickLine
        border.color: Theme.accent
    }

    Rectangle {
        anchors { right: parent.right; top: parent.top }
        visible: root.selected
        width: Theme.mm(11)
        height: width
        color: Theme.accent

        Icon {
            anchors.centerIn: parent
            symbol: Icon.Tick
            colour: Theme.accentInk
        }
    }
}
