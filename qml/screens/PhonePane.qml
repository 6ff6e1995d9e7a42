// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Drawing
import Ramplight.Kiosk
import Ramplight.Theme

// A phone as the camera: the code that opens its page, and what has come by it.
//   phone, count (photos that came);  signal again(): another code is wanted
Column {
    id: root

    required property PhoneCamera phone
    readonly property bool beside: width > Theme.mm(190)
    readonly property bool served: root.phone.configured && root.phone.fault.length === 0

    readonly property int count: arrived.count

    signal again

    spacing: Theme.module

    EmptyState {
        anchors.horizontalCenter: parent.horizontalCenter
        visible: !root.served
        paper: true
        title: root.phone.configured ? qsTr("Phones do not reach this kiosk") : qsTr("This kiosk has no address for phones")
        hint: root.phone.configured ? root.phone.fault
            : qsTr("A manager sets it under Staff and bays, Settings, Screen: the address of this kiosk in the workshop's network.")
    }

    Grid {
        visible: root.served
        width: parent.width
        columns: root.beside ? 2 : 1
        spacing: Theme.mm(6)

        Rectangle {
            id: plate

            width: root.beside ? Theme.mm(100) : Math.min(root.width, Theme.mm(100))
            height: width
            color: "#FFFFFF"
            border.width: Theme.line
            border.color: Theme.paperLine
            radius: Theme.radius

            QrDrawing {
                anchors { fill: parent; margins: Theme.line * 2 }
                visible: root.phone.open
                text: root.phone.address
            }

            Column {
                anchors.centerIn: parent
                width: parent.width - 2 * Theme.module
                visible: !root.phone.open
                spacing: Theme.module

                Label {
                    width: parent.width
                    text: qsTr("This code is over.")
                    horizontalAlignment: Text.AlignHCenter
                    wrapMode: Text.WordWrap
                }

                ActionButton {
                    anchors.horizontalCenter: parent.horizontalCenter
                    paper: true
                    kind: ActionButton.Accent
                    text: qsTr("A new code")
                    onTapped: root.again()
                }
            }
        }

        Column {
            width: root.beside ? root.width - plate.width - Theme.mm(6) : root.width
            spacing: Theme.module

            Label {
                width: parent.width
                text: qsTr("Point the phone's camera at the code. The phone must be in the workshop's network; it needs no app.")
                wrapMode: Text.WordWrap
            }

            Column {
                width: parent.width
                visible: root.phone.open
                spacing: Theme.half / 2

                Label {
                    text: qsTr("Or type this address into its browser")
                    role: Label.Detail
                    muted: true
                }

                Label {
                    width: parent.width
                    text: root.phone.address
                    wrapMode: Text.WrapAnywhere
                }
            }

            Label {
                width: parent.width
                visible: root.phone.open
                strong: true
                text: root.phone.minutesLeft === 1 ? qsTr("Holds for one more minute, for these photos only")
                    : qsTr("Holds for %1 more minutes, for these photos only").arg(root.phone.minutesLeft)
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                text: qsTr("The pictures cross the workshop's network without encryption: who listens there can see them.")
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }
        }
    }

    Label {
        width: parent.width
        visible: root.served
        text: root.phone.cameWords
        muted: true
    }

    GridView {
        id: arrived

        readonly property int across: Math.max(1, Math.floor(width / Theme.mm(64)))

        width: parent.width
        height: count > 0 ? Math.min(Math.ceil(count / across) * cellHeight, Theme.mm(root.beside ? 70 : 140)) : 0
        visible: root.served && count > 0
        cellWidth: width / across
        cellHeight: Theme.mm(66)
        clip: true
        model: root.phone.photos
        // The newest is in sight.
        onCountChanged: positionViewAtEnd()
        delegate: Item {
            id: cell

            required property int number
            required property string url
            required property string caption
            required property bool refused

            width: arrived.cellWidth
            height: arrived.cellHeight

            PhotoTile {
                anchors { left: parent.left; right: parent.right; top: parent.top; bottom: words.top; margins: Theme.half }
                available: false
                source: cell.url
                prompt: cell.refused ? qsTr("not taken") : cell.caption
                required: cell.refused
            }

            Label {
                id: words

                anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.half; rightMargin: Theme.half }
                text: cell.refused || cell.url.length > 0 ? cell.caption : ""
                role: Label.Detail
                strong: cell.refused
                wrapMode: Text.WordWrap
                maximumLineCount: 3
                elide: Text.ElideRight
            }
        }
    }
}
