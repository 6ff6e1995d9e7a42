// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One finding in the list of a car, with what was said, what answers it, and its photos.
//   required: roles of FindingsModel;  signal tapped()
Touchable {
    id: root

    required property int findingId
    required property string placeId
    required property string words
    required property string quote
    required property string byWords
    required property bool stands
    required property bool corrected
    required property string correctedWords
    required property bool undecided
    required property bool disclosed
    required property string answerWords
    required property list<string> photoUrls

    function firstPhoto(): string {
        return root.photoUrls.length > 0 ? root.photoUrls[0] : ""
    }

    spoken: words
    implicitHeight: Math.max(Theme.touch, text.height + 2 * Theme.half, photoUrls.length > 0 ? Theme.mm(26) : 0)

    Rectangle {
        anchors.fill: parent
        color: root.pressed ? Theme.sunk : "transparent"
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.accent
    }

    Column {
        id: text

        anchors { left: parent.left; right: photo.left; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            text: root.words
            font.strikeout: !root.stands
            muted: !root.stands
            wrapMode: Text.Wrap
        }

        Label {
            width: parent.width
            visible: root.quote.length > 0
            text: "\u201c" + root.quote + "\u201d"
            role: Label.Detail
            wrapMode: Text.Wrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: root.answerWords.length > 0
            text: root.undecided ? root.answerWords : qsTr("answered by: %1").arg(root.answerWords)
            role: Label.Detail
            strong: root.undecided
            wrapMode: Text.Wrap
        }

        Label {
            width: parent.width
            text: root.corrected ? root.correctedWords : root.byWords
            role: Label.Detail
            muted: true
            wrapMode: Text.Wrap
        }
    }

    Image {
        id: photo

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        width: root.photoUrls.length > 0 ? Theme.mm(30) : 0
        height: Theme.mm(22)
        visible: root.photoUrls.length > 0
        source: root.firstPhoto()
        sourceSize.width: Theme.mm(30)
        asynchronous: true
        fillMode: Image.PreserveAspectCrop
        clip: true
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.line
        color: Theme.rule
    }
}
