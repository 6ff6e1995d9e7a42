// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One operation in the list of a car: its state as a band, what and where, and what it waits for.
//   required: roles of OperationsModel;  kept: something of it waits here for the server;  signal tapped()
Touchable {
    id: root

    required property int operationId
    required property string title
    required property string placeId
    required property int band
    required property string stateWord
    required property bool open
    required property bool safety
    required property string skillWords
    required property string who
    required property string minutesWords
    required property string whyWords
    required property string notYetWords
    required property string situationWords
    required property string signedWords
    property bool kept: false

    function factWords(): string {
        if (root.kept)
            return root.stateWord + " · " + qsTr("kept here, not yet on the wall")
        if (!root.open)
            return root.stateWord
        const whose = root.who.length > 0 ? root.who : root.skillWords
        return root.stateWord + " · " + whose + " · " + root.minutesWords
    }

    function whyWordsShown(): string {
        if (!root.open)
            return root.signedWords
        if (root.situationWords.length > 0)
            return root.situationWords
        return root.notYetWords.length > 0 ? qsTr("not yet: %1").arg(root.notYetWords) : root.whyWords
    }

    spoken: title
    implicitHeight: Math.max(Theme.touch, words.height + 2 * Theme.half)

    Rectangle {
        anchors.fill: parent
        color: root.pressed ? Theme.sunk : "transparent"
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.accent
    }

    StateBand {
        anchors { left: parent.left; top: parent.top; bottom: parent.bottom; topMargin: Theme.half / 2; bottomMargin: Theme.half / 2 }
        width: Theme.mm(4)
        radius: 0
        band: root.band
    }

    Icon {
        id: sign

        x: Theme.mm(7)
        y: words.y + (titleLabel.font.pixelSize * 1.25 - height) / 2
        width: Theme.mm(4.2)
        height: Theme.mm(4.2)
        visible: root.open
        symbol: root.safety ? Icon.HatchMark : Icon.RingMark
    }

    Column {
        id: words

        anchors { left: parent.left; leftMargin: Theme.mm(14); right: parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }

        Label {
            id: titleLabel

            width: parent.width
            text: root.title
            strong: root.open && root.safety
            muted: !root.open
            wrapMode: Text.Wrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            text: root.factWords()
            role: Label.Detail
            strong: root.kept
            wrapMode: Text.Wrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.whyWordsShown()
            role: Label.Detail
            muted: true
            wrapMode: Text.Wrap
            maximumLineCount: 3
            elide: Text.ElideRight
        }
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.line
        color: Theme.rule
    }
}
