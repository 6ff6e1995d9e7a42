// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One photo as large as the screen has room, with what it shows.
//   source, caption;  signal dismissed()
FocusScope {
    id: root

    property url source
    property string caption: ""

    signal dismissed

    anchors.fill: parent
    Keys.onEscapePressed: root.dismissed()

    Rectangle {
        anchors.fill: parent
        color: Theme.ground

        MouseArea {
            anchors.fill: parent
        }
    }

    Image {
        id: picture

        anchors { fill: parent; margins: Theme.margin; bottomMargin: Theme.touch + 2 * Theme.module }
        source: root.source
        asynchronous: true
        fillMode: Image.PreserveAspectFit
        sourceSize.width: root.width
    }

    Waiting {
        anchors.centerIn: picture
        visible: picture.status === Image.Loading
        text: qsTr("Fetching the photo")
    }

    Label {
        anchors.centerIn: picture
        visible: picture.status === Image.Error
        text: qsTr("This photo cannot be shown. Its hash stays on record; tell whoever looks after the kiosk.")
        paper: false
    }

    ActionButton {
        id: close

        anchors { left: parent.left; bottom: parent.bottom; leftMargin: Theme.margin; bottomMargin: Theme.module }
        symbol: Icon.Back
        text: qsTr("Back")
        onTapped: root.dismissed()
    }

    Label {
        anchors { left: close.right; leftMargin: Theme.module; right: parent.right; rightMargin: Theme.margin; verticalCenter: close.verticalCenter }
        text: root.caption
        paper: false
        elide: Text.ElideRight
    }
}
