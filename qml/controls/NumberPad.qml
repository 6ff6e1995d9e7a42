// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Numbers in gloves: 20 mm keys, the value and its unit above them.
//   title, unit, hint (the limit in words), text (the value so far, always with a point)
//   decimals (places after the point, 0: none), signed, digits (at most), decimalMark (as shown)
//   doneText;  signals edited(string text), done(string text);  clear()
// A hardware keyboard works while the pad has focus.
FocusScope {
    id: root

    property string title: ""
    property string unit: ""
    property string hint: ""
    property string text: ""
    property int decimals: 0
    property int digits: 6
    property bool signed: false
    property string decimalMark: "."
    property string doneText: qsTr("Done")
    property real key: Theme.touch

    signal edited(string text)
    signal done(string text)

    readonly property string shownText: text.replace(".", decimalMark).replace("-", "\u2212")
    readonly property bool complete: /[0-9]$/.test(text)

    function clear(): void {
        root.change("")
    }

    function change(text: string): void {
        if (root.text === text)
            return
        root.text = text
        root.edited(text)
    }

    function strike(sign: string): void {
        const now = root.text
        if (sign === ".") {
            if (root.decimals > 0 && now.indexOf(".") < 0)
                root.change((now === "" || now === "-" ? now + "0" : now) + ".")
            return
        }
        if (sign === "-") {
            if (root.signed)
                root.change(now.startsWith("-") ? now.substring(1) : "-" + now)
            return
        }
        const point = now.indexOf(".")
        if (point >= 0 && now.length - point - 1 >= root.decimals)
            return
        if (now.replace(/[^0-9]/g, "").length >= root.digits)
            return
        root.change(now === "0" ? sign : now === "-0" ? "-" + sign : now + sign)
    }

    function erase(): void {
        root.change(root.text.substring(0, root.text.length - 1))
    }

    function finish(): void {
        if (root.complete)
            root.done(root.text)
    }

    implicitWidth: 4 * key + 3 * Theme.gap
    implicitHeight: grid.y + grid.height
    Keys.onPressed: event => {
        if (event.text.length === 1 && "0123456789".indexOf(event.text) >= 0)
            root.strike(event.text)
        else if (event.text === "." || event.text === ",")
            root.strike(".")
        else if (event.text === "-")
            root.strike("-")
        else if (event.key === Qt.Key_Backspace)
            root.erase()
        else if (event.key === Qt.Key_Delete)
            root.clear()
        else if (event.key === Qt.Key_Return || event.key === Qt.Key_Enter)
            root.finish()
        else
            return
        event.accepted = true
    }

    MouseArea {
        anchors.fill: parent
        onPressed: root.forceActiveFocus()
    }

    Label {
        id: heading

        width: parent.width
        visible: root.title.length > 0
        height: visible ? implicitHeight : 0
        text: root.title
        wrapMode: Text.WordWrap
        maximumLineCount: 2
        elide: Text.ElideRight
    }

    Rectangle {
        id: display

        anchors { top: heading.bottom; topMargin: heading.visible ? Theme.half : 0 }
        width: parent.width
        height: Theme.mm(20)
        radius: Theme.radius
        color: Theme.paper
        border.width: Theme.thickLine
        border.color: Theme.accent

        Row {
            anchors { right: parent.right; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
            spacing: Theme.half

            Label {
                id: figure

                text: root.shownText
                role: Label.Title
                font.pixelSize: Theme.titleSize * 1.35
            }

            Rectangle {
                anchors.verticalCenter: parent.verticalCenter
                width: Theme.thickLine
                height: Theme.mm(12)
                color: Theme.accent
            }

            Label {
                anchors.baseline: figure.baseline
                text: root.unit
                muted: true
            }
        }
    }

    Label {
        id: limits

        anchors { top: display.bottom; topMargin: visible ? Theme.half : 0 }
        width: parent.width
        height: visible ? implicitHeight : 0
        visible: root.hint.length > 0
        text: root.hint
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
        horizontalAlignment: Text.AlignRight
    }

    Row {
        id: grid

        anchors { top: limits.bottom; topMargin: Theme.gap }
        spacing: Theme.gap

        Grid {
            columns: 3
            spacing: Theme.gap

            Repeater {
                model: ["7", "8", "9", "4", "5", "6", "1", "2", "3", "-", "0", "."]

                delegate: KeyCap {
                    required property string modelData

                    readonly property bool point: modelData === "."
                    readonly property bool sign: modelData === "-"

                    width: root.key
                    height: root.key
                    opacity: (point && root.decimals === 0) || (sign && !root.signed) ? 0 : 1
                    available: opacity > 0
                    text: point ? root.decimalMark : sign ? "\u2212" : modelData
                    onStruck: root.strike(modelData)
                }
            }
        }

        Column {
            spacing: Theme.gap

            KeyCap {
                width: root.key
                height: root.key
                symbol: Icon.Erase
                Accessible.name: qsTr("Erase")
                onStruck: root.erase()
            }

            KeyCap {
                width: root.key
                height: root.key
                text: qsTr("clear")
                textSize: Theme.readingSize
                onStruck: root.clear()
            }

            KeyCap {
                width: root.key
                height: 2 * root.key + Theme.gap
                strong: true
                available: root.complete
                text: root.doneText
                textSize: Theme.readingSize
                onStruck: root.finish()
            }
        }
    }
}
