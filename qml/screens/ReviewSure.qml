// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The drafts that are seldom wrong, to be kept together; a touch looks at one.
//   review
Item {
    id: root

    required property SpeechReview review

    Label {
        id: heading

        width: parent.width
        text: qsTr("About nine in ten of these are right. Touch one to look at it.")
        muted: true
        wrapMode: Text.WordWrap
    }

    ListView {
        id: list

        anchors { left: parent.left; right: parent.right; top: heading.bottom; topMargin: Theme.half; bottom: all.top; bottomMargin: Theme.gap }
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        model: root.review.sure

        delegate: SettingLine {
            required property int draft
            required property string placeWords
            required property string whatWords
            required property string todoWords
            required property string momentWords

            width: list.width
            implicitHeight: Theme.mm(23)
            title: placeWords
            detail: todoWords.length > 0 ? whatWords + " · " + todoWords : whatWords
            note: momentWords
            onTapped: root.review.choose(draft)
        }
    }

    Label {
        anchors.centerIn: parent
        visible: list.count === 0
        text: qsTr("Nothing sure is left.")
        muted: true
    }

    ActionButton {
        id: all

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        implicitHeight: Theme.touchSafety
        visible: list.count > 0
        paper: true
        kind: ActionButton.Accent
        symbol: Icon.Tick
        text: list.count === 1 ? qsTr("Keep the one that is sure") : qsTr("Keep all %1 sure ones").arg(list.count)
        onTapped: root.review.keepSure()
    }
}
