// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Asks for a PIN. Shows dots, never a digit, and forgets the PIN as soon as it has given it away.
//   digits (6), message (why it is asked, or what was wrong), busy (being checked)
//   available: false takes no digits (a wait, a lock; the message says which)
//   signal entered(string pin);  clear()
// A hardware keyboard works while the pad has focus.
FocusScope {
    id: root

    property int digits: 6
    property string message: ""
    property bool busy: false
    property bool available: true
    property bool paper: true
    property real key: Theme.mm(22)

    signal entered(string pin)

    readonly property int count: kept.pin.length

    function clear(): void {
        kept.pin = ""
    }

    function strike(digit: string): void {
        if (root.busy || !root.available || kept.pin.length >= root.digits)
            return
        kept.pin += digit
        if (kept.pin.length === root.digits) {
            const pin = kept.pin
            kept.pin = ""
            root.entered(pin)
        }
    }

    function erase(): void {
        kept.pin = kept.pin.substring(0, kept.pin.length - 1)
    }

    implicitWidth: 3 * key + 2 * Theme.gap
    implicitHeight: grid.y + grid.height
    Keys.onPressed: event => {
        if (event.text.length === 1 && "0123456789".indexOf(event.text) >= 0)
            root.strike(event.text)
        else if (event.key === Qt.Key_Backspace)
            root.erase()
        else if (event.key === Qt.Key_Delete)
            root.clear()
        else
            return
        event.accepted = true
    }

    QtObject {
        id: kept

        property string pin: ""
    }

    MouseArea {
        anchors.fill: parent
        onPressed: root.forceActiveFocus()
    }

    Row {
        id: dots

        anchors.horizontalCenter: parent.horizontalCenter
        height: Theme.mm(12)
        spacing: Theme.mm(4)

        Repeater {
            model: root.digits

            delegate: Rectangle {
                required property int index

                anchors.verticalCenter: parent ? parent.verticalCenter : undefined
                width: Theme.mm(5)
                height: width
                radius: width / 2
                color: index < root.count || root.busy ? (root.paper ? Theme.ink : Theme.groundInk) : "transparent"
                border.width: Theme.thickLine * 0.8
                border.color: root.paper ? Theme.ink : Theme.groundInk
            }
        }
    }

    Label {
        id: words

        anchors { top: dots.bottom; topMargin: Theme.half }
        width: parent.width
        height: Math.max(implicitHeight, Theme.mm(8))
        text: root.busy ? qsTr("checking") : root.message
        paper: root.paper
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
    }

    Grid {
        id: grid

        anchors { top: words.bottom; topMargin: Theme.gap }
        columns: 3
        spacing: Theme.gap

        Repeater {
            model: ["1", "2", "3", "4", "5", "6", "7", "8", "9", "clear", "0", "erase"]

            delegate: KeyCap {
                required property string modelData

                readonly property bool wipes: modelData === "clear"
                readonly property bool erases: modelData === "erase"

                width: root.key
                height: root.key
                paper: root.paper
                available: root.available && !root.busy
                text: wipes ? qsTr("clear") : erases ? "" : modelData
                textSize: wipes ? Theme.readingSize : Theme.titleSize
                symbol: erases ? Icon.Erase : Icon.NoSymbol
                Accessible.name: erases ? qsTr("Erase") : text
                onStruck: {
                    if (wipes)
                        root.clear()
                    else if (erases)
                        root.erase()
                    else
                        root.strike(modelData)
                }
            }
        }
    }
}
