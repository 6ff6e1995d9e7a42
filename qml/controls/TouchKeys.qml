// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The keys of the touch keyboard.
//   unit (width of a letter), newLine (enter begins a line);  signals typed(text), erased(), entered(), putAway()
// Letters, digits, the usual marks, capitals for one letter or (two taps) until told otherwise.
Column {
    id: root

    property real unit: Theme.touch
    property bool newLine: false
    property bool capital: false
    property bool capitalStays: false
    property bool marks: false

    readonly property list<string> letterRows: ["qwertyuiop", "asdfghjkl", "zxcvbnm"]
    readonly property list<string> markRows: ["@#&%+=()/\\", "\u00b0\u20ac\u00a3*\"!?;:", "\u00df\u00e4\u00f6\u00fc\u00e9\u00e8\u00e7"]

    signal typed(text: string)
    signal erased
    signal entered
    signal putAway

    function type(text: string): void {
        root.typed(text)
        if (!root.capitalStays)
            root.capital = false
    }

    spacing: Theme.gap

    component Letters: Row {
        id: letters

        property string signs: ""

        spacing: Theme.gap

        Repeater {
            model: letters.signs.length

            delegate: KeyCap {
                required property int index

                readonly property string sign: letters.signs.charAt(index)

                width: root.unit
                paper: false
                textSize: Theme.readingSize * 1.2
                text: root.capital ? sign.toUpperCase() : sign
                onStruck: root.type(text)
            }
        }
    }

    Letters {
        anchors.horizontalCenter: parent.horizontalCenter
        signs: "1234567890"
    }

    Letters {
        anchors.horizontalCenter: parent.horizontalCenter
        signs: root.marks ? root.markRows[0] : root.letterRows[0]
    }

    Letters {
        anchors.horizontalCenter: parent.horizontalCenter
        signs: root.marks ? root.markRows[1] : root.letterRows[1]
    }

    Row {
        anchors.horizontalCenter: parent.horizontalCenter
        spacing: Theme.gap

        KeyCap {
            width: root.unit * 1.5 + Theme.gap / 2
            paper: false
            symbol: Icon.Shift
            strong: root.capital
            Accessible.name: qsTr("Capitals")
            onStruck: {
                if (root.capital && !root.capitalStays) {
                    root.capitalStays = true
                } else {
                    root.capital = !root.capital
                    root.capitalStays = false
                }
            }

            Rectangle {
                visible: root.capitalStays
                anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.half }
                width: Theme.mm(8)
                height: Theme.thickLine
                color: Theme.accentInk
            }
        }

        Letters {
            signs: root.marks ? root.markRows[2] : root.letterRows[2]
        }

        KeyCap {
            width: root.unit * 1.5 + Theme.gap / 2
            paper: false
            symbol: Icon.Erase
            Accessible.name: qsTr("Erase")
            onStruck: root.erased()
        }
    }

    Row {
        anchors.horizontalCenter: parent.horizontalCenter
        spacing: Theme.gap

        KeyCap {
            width: root.unit * 1.5 + Theme.gap / 2
            paper: false
            textSize: Theme.readingSize
            text: root.marks ? qsTr("abc") : qsTr("marks")
            onStruck: root.marks = !root.marks
        }

        Letters {
            signs: "-'"
        }

        KeyCap {
            width: root.unit * 2 + Theme.gap
            paper: false
            textSize: Theme.readingSize
            text: qsTr("space")
            onStruck: root.type(" ")
        }

        Letters {
            signs: ",."
        }

        KeyCap {
            width: root.unit * 1.5 + Theme.gap / 2
            paper: false
            textSize: Theme.readingSize
            text: root.newLine ? qsTr("new line") : qsTr("enter")
            onStruck: {
                if (root.newLine)
                    root.type("\n")
                else
                    root.entered()
            }
        }

        KeyCap {
            width: root.unit
            paper: false
            symbol: Icon.HideKeys
            Accessible.name: qsTr("Put the keyboard away")
            onStruck: root.putAway()
        }
    }
}
