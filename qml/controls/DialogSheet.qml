// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A sheet over the dimmed wall that wants an answer. Fills its parent; place it last.
//   shown, title, content (default), actions (buttons for its lower edge, right-aligned)
//   sheetWidth, low (stands at the lower edge, within reach; otherwise in the middle)
//   What is taller than the screen scrolls; heading, trouble and actions stay.
//   trouble (words under the heading), fault: it can be tried again;  signals retried(), troubleRead()
//   waits: why nothing can be entered now; the content is not shown meanwhile
//   dismissable: a touch beside it or Escape says dismissed();  signal dismissed()
FocusScope {
    id: root

    property bool shown: false
    property string title: ""
    property bool dismissable: true
    property bool low: false
    property string trouble: ""
    property bool fault: false
    property string waits: ""
    property real sheetWidth: Math.min(Theme.mm(160), width - 2 * Theme.margin)
    default property alias content: body.data
    property alias actions: footer.data
    readonly property real contentWidth: body.width

    signal dismissed
    signal retried
    signal troubleRead

    anchors.fill: parent
    visible: shade.opacity > 0
    focus: shown
    Keys.onEscapePressed: {
        if (root.dismissable)
            root.dismissed()
    }
    onShownChanged: {
        if (root.shown)
            root.forceActiveFocus()
    }

    Rectangle {
        id: shade

        anchors.fill: parent
        color: Theme.shade
        opacity: root.shown ? 1 : 0

        Behavior on opacity {
            NumberAnimation { duration: Theme.moveTime }
        }

        MouseArea {
            anchors.fill: parent
            onClicked: {
                if (root.dismissable)
                    root.dismissed()
            }
        }
    }

    Rectangle {
        anchors.horizontalCenter: parent.horizontalCenter
        y: root.low ? parent.height - height - Theme.margin : Math.round((parent.height - height) / 2)
        width: root.sheetWidth
        height: scroll.y + scroll.height + (footer.visible ? footer.height + Theme.mm(6) : 0) + Theme.margin
        color: Theme.paper
        radius: Theme.radius
        opacity: shade.opacity

        // Touches on the paper stay on the paper.
        MouseArea {
            anchors.fill: parent
        }

        Label {
            id: heading

            x: Theme.margin
            y: Theme.margin
            width: parent.width - 2 * Theme.margin
            visible: root.title.length > 0
            text: root.title
            role: Label.Title
            wrapMode: Text.WordWrap
        }

        Label {
            id: waiting

            x: Theme.margin
            y: heading.visible ? heading.y + heading.height + Theme.module : Theme.margin
            width: parent.width - 2 * Theme.margin
            visible: root.waits.length > 0
            text: root.waits
            strong: true
            wrapMode: Text.WordWrap
        }

        Banner {
            id: told

            x: Theme.margin
            y: waiting.visible ? waiting.y + waiting.height + Theme.module : waiting.y
            width: parent.width - 2 * x
            visible: root.trouble.length > 0
            kind: root.fault ? Banner.Fault : Banner.Refusal
            what: root.trouble
            action: root.fault ? qsTr("Try again") : ""
            onActed: root.retried()
            onClosed: root.troubleRead()
        }

        Flickable {
            id: scroll

            readonly property real room: root.height - 3 * Theme.margin - y - (footer.visible ? footer.height + Theme.mm(6) : 0)
            // Borders at the sides of what scrolls are not cut.
            readonly property real strip: Theme.thickLine

            x: Theme.margin - strip
            y: told.visible ? told.y + told.height + Theme.module : told.y
            width: parent.width - 2 * x
            height: visible ? Math.min(body.height, room) : 0
            visible: !waiting.visible
            contentHeight: body.height
            interactive: contentHeight > height
            clip: interactive
            boundsBehavior: Flickable.StopAtBounds

            Item {
                id: body

                x: scroll.strip
                width: scroll.width - 2 * scroll.strip
                height: childrenRect.height
            }
        }

        Row {
            id: footer

            anchors { right: parent.right; bottom: parent.bottom; margins: Theme.margin }
            visible: children.length > 0
            spacing: Theme.gap
            // A safety action is the taller one; all stand on one line.
            onPositioningComplete: {
                for (let i = 0; i < children.length; ++i)
                    children[i].y = height - children[i].height
            }
        }
    }
}
